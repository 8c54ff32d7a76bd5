#include "uptake/independent.h"

#include <doctest/doctest.h>

#include "support/within.h"

namespace {

constexpr int drilled_h = 5, hours_after = 6;

struct Difference {
  double volume_share = 0.0, final_volume_share = 0.0, base_mpa = 0.0, crown_mpa = 0.0;
};

// The largest at full hours after drilling, over twenty random trees, soils and days.
Difference largest_difference(std::size_t steps_an_hour) {
  Difference worst;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const bench::Case c = bench::any_case(seed, false);
    const auto draws = uptake::sample_draws(c.subject.source, 8, seed);
    const auto draw = bench::lane_of(draws[0], 3);
    auto day = bench::day(c, draw, steps_an_hour);
    day.dose_l = 1e12;
    independent::Tree other{c, draw};
    auto theirs = other.at_rest();
    auto ours = uptake::at_rest(day);
    other.move(theirs, 0, drilled_h, drilled_h);
    uptake::rest(day, 0, drilled_h * steps_an_hour, ours, bench::unseen);
    worst.base_mpa = std::max(worst.base_mpa, std::abs(ours.base_mpa - theirs.base_mpa));
    worst.crown_mpa = std::max(worst.crown_mpa, std::abs(ours.crown_mpa - theirs.crown_mpa));
    int hour = drilled_h;
    const auto compare = [&](std::size_t step, const uptake::Flows<double>&, const uptake::Water<double>& now) {
      if ((step + 1) % steps_an_hour != 0) return;
      other.move(theirs, hour, hour + 1, drilled_h);
      ++hour;
      worst.volume_share = std::max(worst.volume_share, std::abs(now.volume_l / theirs.volume_l - 1.0));
      worst.base_mpa = std::max(worst.base_mpa, std::abs(now.base_mpa - theirs.base_mpa));
      worst.crown_mpa = std::max(worst.crown_mpa, std::abs(now.crown_mpa - theirs.crown_mpa));
    };
    uptake::drink(day, drilled_h * steps_an_hour, (drilled_h + hours_after) * steps_an_hour, ours, compare);
    REQUIRE(hour == drilled_h + hours_after);
    worst.final_volume_share = std::max(worst.final_volume_share, std::abs(ours.volume_l / theirs.volume_l - 1.0));
  }
  return worst;
}

}  // namespace

TEST_SUITE("uptake") {
  TEST_CASE("a second program of the same equations in one-second Runge-Kutta steps takes up the same volume") {
    const Difference d = largest_difference(uptake::steps_per_hour);
    MESSAGE("volume after six hours " << 100.0 * d.final_volume_share << " %, at the worst full hour " << 100.0 * d.volume_share
                                      << " %, base " << d.base_mpa << " MPa, crown " << d.crown_mpa << " MPa");
    CHECK(d.volume_share < 0.002);
    CHECK(d.base_mpa < 0.002);
    CHECK(d.crown_mpa < 0.002);
  }

  TEST_CASE("what is left of the difference is the length of the step, and goes with it") {
    const Difference d = largest_difference(120);
    CHECK(d.volume_share < 0.00005);
    CHECK(d.base_mpa < 0.00002);
    CHECK(d.crown_mpa < 0.00002);
  }
}
