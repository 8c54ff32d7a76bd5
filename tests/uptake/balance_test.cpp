#include <doctest/doctest.h>

#include "support/within.h"
#include "uptake/bench.h"

namespace {

// Follows a run step by step: what went in is what is stored, what went to the roots and what the leaves gave off.
class Book {
 public:
  Book(const uptake::Day<double>& day, const uptake::Water<double>& start) : day_(day), before_(start) {}

  void operator()(std::size_t, const uptake::Flows<double>& flows, const uptake::Water<double>& now) {
    const uptake::Coefficients<double>& k = day_.coefficients;
    const double into_base = k.base_store_l_mpa * (now.base_mpa - before_.base_mpa);
    const double into_crown = k.crown_store_l_mpa * (now.crown_mpa - before_.crown_mpa);
    const double into_lumens = now.lumens_l - before_.lumens_l;
    const double taken = now.volume_l - before_.volume_l;
    const double off = taken - into_base - into_crown - into_lumens + day_.step_h * (flows.root - flows.leaves);
    worst = std::max(worst, std::abs(off) / std::max(1.0, now.volume_l));
    total_off += off;
    finite =
        finite && std::isfinite(now.base_mpa) && std::isfinite(now.crown_mpa) && std::isfinite(now.lumens_l) && std::isfinite(now.volume_l);
    falls = falls || now.volume_l < before_.volume_l || now.lumens_l < before_.lumens_l;
    const double soil = day_.hours[step_ / day_.steps_an_hour].soil_mpa;
    const double highest = std::max(before_.base_mpa, now.base_mpa), lowest = std::min(before_.base_mpa, now.base_mpa);
    uphill = uphill || (flows.root > 0.0 && lowest > soil + 0.02) || (flows.root < 0.0 && highest < soil - 0.02);
    wrong_way = wrong_way || flows.ports < 0.0 || flows.leaves < 0.0 || flows.lumens < 0.0;
    driest = std::min({driest, now.base_mpa, now.crown_mpa});
    wettest = std::max(wettest, now.base_mpa);
    before_ = now;
    ++step_;
  }

  double worst = 0.0, total_off = 0.0, driest = 0.0, wettest = -1e9;
  bool finite = true, falls = false, wrong_way = false, uphill = false;

 private:
  const uptake::Day<double>& day_;
  uptake::Water<double> before_;
  std::size_t step_ = 0;
};

void check_run(const bench::Case& c, const uptake::Draw<double>& draw) {
  auto day = bench::day(c, draw);
  day.dose_l = 1e12;
  auto water = uptake::at_rest(day);
  const double start_stored = day.coefficients.base_store_l_mpa * water.base_mpa;
  Book book{day, water};
  constexpr std::size_t opened = 4 * uptake::steps_per_hour;
  uptake::rest(day, 0, opened, water, std::ref(book));
  uptake::drink(day, opened, day.steps(), water, std::ref(book));
  CHECK(book.worst <= 1e-9);
  CHECK(std::abs(book.total_off) <= 1e-9 * std::max({1.0, water.volume_l, std::abs(start_stored)}));
  CHECK(book.finite);
  CHECK_FALSE(book.falls);
  CHECK_FALSE(book.wrong_way);
  CHECK(book.driest > -105.0);  // the driest soil there is, and some
  // The base of a seedling holds so little that a step is a hundred times its own time: in weather that jumps, a step of second order
  // carries it a little past its goal.
  const bool seedling = c.subject.measured.dbh.value < 5.0;
  if (!seedling) CHECK_FALSE(book.uphill);
  CHECK(book.wettest <= std::max(0.0, c.subject.pressure.value) + (seedling ? 0.05 : 1e-9));
  CHECK(water.lumens_l <= day.plant.lumens_l * (1.0 + 1e-12));
}

}  // namespace

TEST_SUITE("uptake") {
  TEST_CASE("water in is water stored, given to the soil and given off, at every step of any tree on any day") {
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
      CAPTURE(seed);
      const bench::Case c = bench::any_case(seed, seed % 3 != 0);
      check_run(c, bench::lane_of(uptake::sample_draws(c.subject.source, 8, seed)[0], static_cast<int>(seed % 8)));
    }
  }

  TEST_CASE("frozen, bone-dry, flooded, bare, portless and pressureless trees of any size keep their balance") {
    for (const double dbh_cm : {2.0, 30.0, 150.0, 400.0})
      for (int extreme = 0; extreme < 64; ++extreme) {
        CAPTURE(dbh_cm);
        CAPTURE(extreme);
        bench::Weather w;
        if ((extreme & 1) != 0) w.soil_temp_c = -3.0;
        if ((extreme & 2) != 0) w.rew = 0.0;
        if ((extreme & 4) != 0) w.saturated_h = 100.0;
        if ((extreme & 8) != 0) w.leaf_share = 0.0;
        bench::Case c{bench::subject(dbh_cm), bench::loam(), bench::hours(w, 5, 30)};
        if ((extreme & 16) != 0) c.subject.port_count = 0.0;
        if ((extreme & 32) != 0) c.subject.pressure = units::Megapascals{0.0};
        check_run(c, bench::middle(c));
      }
  }
}
