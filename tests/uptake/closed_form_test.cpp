// Steady states and fillings whose solution can be written down, with the program's own steps.
#include <doctest/doctest.h>

#include "support/within.h"
#include "uptake/bench.h"

namespace {

// A day of one unchanging hour.
bench::Case unchanging(double dbh_cm, double leaf_share, double rew = 0.9) {
  bench::Weather w;
  w.temp_swing_c = 0.0;
  w.dew_point_c = 10.0;
  w.rew = rew;
  w.leaf_share = leaf_share;
  bench::Case c{bench::subject(dbh_cm), bench::loam(), bench::hours(w, 12, 60)};
  for (uptake::HourWeather& h : c.hours) h = c.hours.front();
  return c;
}

std::size_t steps(double hours) { return static_cast<std::size_t>(std::lround(hours * static_cast<double>(uptake::steps_per_hour))); }

// Xylem that loses nothing and leaves that never close: what is left of the tree is linear.
uptake::Draw<double> linear(const bench::Case& c) {
  uptake::Draw<double> draw = bench::middle(c);
  draw.p50_mpa = draw.psi_half_mpa = 1e6;
  return draw;
}

}  // namespace

TEST_SUITE("uptake") {
  TEST_CASE("without ports and demand the base stands at its soil and the crown below it by the lift") {
    for (const double rew : {0.1, 0.5, 0.9}) {
      const bench::Case c = unchanging(60.0, 0.0, rew);
      const auto day = bench::day(c, bench::middle(c));
      // From a base half a megapascal off, both ways.
      for (const double off_mpa : {-0.5, 0.5}) {
        auto water = uptake::at_rest(day);
        water.base_mpa += off_mpa;
        // Dry soil gives and takes slowly: months of the same hour.
        for (int again = 0; again < 40; ++again) uptake::rest(day, 0, steps(50.0), water, bench::unseen);
        const double soil = day.hours.front().soil_mpa;
        CAPTURE(rew);
        CHECK(water.base_mpa == within(soil, 1e-6));
        CHECK(water.crown_mpa == within(soil - day.coefficients.lift_mpa, 1e-6));
        CHECK(water.volume_l == 0.0);
      }
    }
  }

  TEST_CASE("steady demand on wood that loses nothing stands down the chain by each resistance") {
    const bench::Case c = unchanging(60.0, 1.0);
    const auto day = bench::day(c, linear(c));
    const auto& h = day.hours.front();
    auto water = uptake::at_rest(day);
    uptake::rest(day, 0, steps(50.0), water, bench::unseen);
    const double demand = h.demand_l_h + h.cuticle_l_h;
    REQUIRE(demand > 1.0);
    const double base = h.soil_mpa - demand / h.root_l_h_mpa;
    CHECK(water.base_mpa == within(base, 1e-6));
    CHECK(water.crown_mpa == within(base - day.coefficients.lift_mpa - demand / h.xylem_l_h_mpa, 1e-6));
  }

  TEST_CASE("on infinitely open roots the base does not leave its soil, with ports or without") {
    const bench::Case c = unchanging(60.0, 1.0);
    auto day = bench::day(c, linear(c));
    for (auto& h : day.hours) h.root_l_h_mpa = 1e9;
    auto water = uptake::at_rest(day);
    uptake::rest(day, 0, steps(4.0), water, bench::unseen);
    CHECK(water.base_mpa == within(day.hours.front().soil_mpa, 1e-6));
  }

  TEST_CASE("a leafless tree cut off from its soil fills its lumens as an exponential and its wood up to the pressure") {
    const bench::Case c = unchanging(60.0, 0.0);
    uptake::Draw<double> draw = bench::middle(c);
    draw.backflow = 1e-9;
    draw.slow_hours = draw.fast_hours = 1e9;  // ports that do not tire
    auto day = bench::day(c, draw);
    day.dose_l = 1e12;
    for (auto& h : day.hours) h.root_l_h_mpa = 1e-9;
    auto water = uptake::at_rest(day);
    const double open = uptake::open_at_drilling(day.hours.front(), draw, water), stored = water.base_mpa, crown = water.crown_mpa;
    uptake::drink(day, 0, steps(8.0), water, bench::unseen);
    const double pressure = c.subject.pressure.value;
    const double per_h = pressure / 0.1 * day.hours.front().port_fluidity * open / draw.lumens_hours;
    CHECK(water.lumens_l == within(day.plant.lumens_l * (1.0 - std::exp(-8.0 * per_h)), 0.005 * day.plant.lumens_l));
    uptake::drink(day, steps(8.0), day.steps(), water, bench::unseen);
    CHECK(water.base_mpa == within(pressure, 1e-3));
    CHECK(water.crown_mpa == within(pressure - day.coefficients.lift_mpa, 1e-3));
    // What was taken up stands in base, crown and lumens.
    CHECK(water.volume_l == within(day.coefficients.base_store_l_mpa * (water.base_mpa - stored) +
                                       day.coefficients.crown_store_l_mpa * (water.crown_mpa - crown) + water.lumens_l,
                                   1e-6 * water.volume_l));
  }

  TEST_CASE("a steady leafless tree takes what its soil takes back") {
    const bench::Case c = unchanging(60.0, 0.0);
    uptake::Draw<double> draw = bench::middle(c);
    draw.slow_hours = draw.fast_hours = 1e9;
    draw.lumens_l_per_port = 0.0;
    auto day = bench::day(c, draw);
    day.dose_l = 1e12;
    auto water = uptake::at_rest(day);
    const auto& h = day.hours.front();
    const double open = uptake::open_at_drilling(h, draw, water);
    uptake::Flows<double> flows{};
    uptake::drink(day, 0, day.steps(), water,
                  [&](std::size_t, const uptake::Flows<double>& f, const uptake::Water<double>&) { flows = f; });
    const double port = day.plant.port_l_h_mpa * h.port_fluidity * open, back = draw.backflow * h.root_l_h_mpa;
    // Two resistances in a row between the pressure and the soil.
    CHECK(flows.ports == within((c.subject.pressure.value - h.soil_mpa) / (1.0 / port + 1.0 / back), 1e-3 * flows.ports));
    CHECK(flows.root == within(-flows.ports, 1e-3 * flows.ports));
  }

  TEST_CASE("a tree without ports takes nothing on any day") {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
      bench::Case c = bench::any_case(seed, seed % 2 == 0);
      c.subject.port_count = 0.0;
      CAPTURE(seed);
      CHECK(bench::volume(c, bench::middle(c), 4.0, 12.0) == 0.0);
    }
  }
}
