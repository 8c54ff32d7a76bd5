#include <doctest/doctest.h>

#include "support/within.h"
#include "uptake/bench.h"

using bench::Lanes;

namespace {

// Libm and the lanes' own functions differ in the last digit, which now and then lets a stage settle a round sooner or later. What a
// round still changes then is the square of 1e-3 MPa.
constexpr double close = 2e-6;

}  // namespace

TEST_SUITE("uptake") {
  TEST_CASE("eight lanes give the answer that each draw gives alone") {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
      const bench::Case c = bench::any_case(seed, seed % 2 == 0);
      const auto draws = uptake::sample_draws(c.subject.source, 8, seed)[0];
      const auto wide = bench::day(c, draws);
      auto together = uptake::at_rest(wide);
      const std::size_t from = 4 * wide.steps_an_hour;
      uptake::rest(wide, 0, from, together, bench::unseen);
      const auto finish = uptake::drink(wide, from, wide.steps(), together, bench::unseen);
      for (int lane = 0; lane < Lanes::count; ++lane) {
        CAPTURE(seed);
        CAPTURE(lane);
        const bench::Run alone = bench::run(bench::day(c, bench::lane_of(draws, lane)), 4.0);
        if (alone.finish.dose_h == uptake::never)
          CHECK(finish.dose_h[lane] == uptake::never);
        else
          CHECK(finish.dose_h[lane] == within(alone.finish.dose_h, close * std::max(1.0, alone.finish.dose_h)));
      }
    }
  }

  TEST_CASE("states in lanes are those of each draw alone at the end of a long run") {
    for (std::uint64_t seed = 101; seed <= 130; ++seed) {
      const bench::Case c = bench::any_case(seed, seed % 2 == 0);
      const auto draws = uptake::sample_draws(c.subject.source, 8, seed)[0];
      auto wide = bench::day(c, draws);
      wide.dose_l = 1e12;
      auto together = uptake::at_rest(wide);
      uptake::rest(wide, 0, 4 * uptake::steps_per_hour, together, bench::unseen);
      uptake::drink(wide, 4 * uptake::steps_per_hour, wide.steps(), together, bench::unseen);
      for (int lane = 0; lane < Lanes::count; ++lane) {
        CAPTURE(seed);
        auto narrow = bench::day(c, bench::lane_of(draws, lane));
        narrow.dose_l = 1e12;
        const uptake::Water<double> alone = bench::run(narrow, 4.0).water;
        CHECK(together.volume_l[lane] == within(alone.volume_l, close * std::max(1.0, alone.volume_l)));
        CHECK(together.lumens_l[lane] == within(alone.lumens_l, close * std::max(1.0, alone.lumens_l)));
        CHECK(together.base_mpa[lane] == within(alone.base_mpa, close * std::max(1.0, std::abs(alone.base_mpa))));
        CHECK(together.crown_mpa[lane] == within(alone.crown_mpa, close * std::max(1.0, std::abs(alone.crown_mpa))));
      }
    }
  }
}
