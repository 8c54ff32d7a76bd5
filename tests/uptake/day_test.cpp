#include "uptake/day.h"

#include <doctest/doctest.h>

#include "support/within.h"
#include "uptake/bench.h"

namespace {

double dose_h(const bench::Case& c, double start_h = 4.0, std::size_t steps_an_hour = uptake::steps_per_hour) {
  return bench::run(bench::day(c, bench::middle(c), steps_an_hour), start_h).finish.dose_h;
}

bench::Case elm(double dbh_cm, const bench::Weather& w = {}, std::size_t count = 40) {
  return {bench::subject(dbh_cm), bench::loam(), bench::hours(w, 5, count)};
}

}  // namespace

TEST_SUITE("uptake") {
  TEST_CASE("half the step changes hours by less than half a percent") {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
      const bench::Case c = bench::any_case(seed, false, 44);
      const double coarse = dose_h(c), fine = dose_h(c, 4.0, 2 * uptake::steps_per_hour);
      if (coarse == uptake::never || coarse < 0.5) continue;
      CAPTURE(seed);
      CHECK(fine == within(coarse, 0.005 * coarse));
    }
  }

  TEST_CASE("the dose is in when the volume says so") {
    const bench::Case c = elm(100);
    auto day = bench::day(c, bench::middle(c));
    const double hours = dose_h(c);
    constexpr double steps = uptake::steps_per_hour;
    CHECK(bench::volume(c, bench::middle(c), 4.0, std::floor(hours * steps) / steps) <= day.dose_l);
    CHECK(bench::volume(c, bench::middle(c), 4.0, std::ceil(hours * steps) / steps) >= day.dose_l);
    CHECK(bench::run(day, 4.0).finish.flush_h > hours);
    day.flush_l = 0.0;
    CHECK(bench::run(day, 4.0).finish.flush_h == hours);
  }

  TEST_CASE("a dose that does not go in within the hours given has no finish time") {
    bench::Weather rain;
    rain.rain_mm_h = 2.0;
    rain.temp_mean_c = 15.0;
    rain.dew_point_c = 15.0;
    rain.temp_swing_c = 0.5;
    rain.cloud_share = 0.25;
    const bench::Case wet = elm(140, rain, 20);
    CHECK(dose_h(wet) == uptake::never);
    CHECK(bench::run(bench::day(wet, bench::middle(wet)), 4.0).finish.flush_h == uptake::never);
    bench::Case dose_only = elm(140, {}, 0);
    dose_only.hours = bench::hours({}, 5, 8);  // ends four hours after the valves open
    dose_only.subject.dose = units::Litres{0.95 * bench::volume(elm(140), bench::middle(elm(140)), 4.0, 4.0)};
    dose_only.subject.flush = units::Litres{0.2 * dose_only.subject.dose.value};
    const auto finish = bench::run(bench::day(dose_only, bench::middle(dose_only)), 4.0).finish;
    CHECK(finish.dose_h < 4.0);
    CHECK(finish.flush_h == uptake::never);
  }

  TEST_CASE("more pressure is faster, and more is gained in the rain than in the sun") {
    double before = 1e9;
    for (const double kpa : {50.0, 70.0, 100.0, 150.0, 200.0}) {
      bench::Case c = elm(120);
      c.subject.pressure = units::Megapascals{kpa / 1000.0};
      CHECK(dose_h(c) < before);
      before = dose_h(c);
    }
    bench::Weather rain;
    rain.rain_mm_h = 2.0;
    rain.dew_point_c = 20.0;
    const auto gain = [](bench::Case c) {
      c.subject.pressure = units::Megapascals{0.07};
      const double low = bench::volume(c, bench::middle(c), 4.0, 6.0);
      c.subject.pressure = units::Megapascals{0.14};
      return bench::volume(c, bench::middle(c), 4.0, 6.0) / low;
    };
    CHECK(gain(elm(120, rain)) > gain(elm(120)));
  }

  TEST_CASE("a start in the morning beats one at dawn, and an evening one is the slowest") {
    const bench::Case c = elm(120, {}, 60);
    const double five = dose_h(c, 0.0), nine = dose_h(c, 4.0), noon = dose_h(c, 7.0), evening = dose_h(c, 13.0), night = dose_h(c, 16.0);
    CHECK(nine < five);
    CHECK(std::abs(noon / nine - 1.0) < 0.1);
    CHECK(evening > 1.2 * nine);
    CHECK(night > evening);
  }

  TEST_CASE("more ports and wider holes are faster, and a tree without ports takes nothing") {
    bench::Case c = elm(120);
    const double usual = dose_h(c);
    c.subject.hole_diameter_mm = 11.0;
    CHECK(dose_h(c) < usual);
    c.subject.hole_diameter_mm.reset();
    c.subject.port_count = 60.0;
    CHECK(dose_h(c) < usual);
    c.subject.port_count = 0.0;
    CHECK(dose_h(c) == uptake::never);
    CHECK(bench::volume(c, bench::middle(c), 4.0, 6.0) == 0.0);
  }

  TEST_CASE("the number of ports follows the flare's girth over their spacing") {
    // 140 cm, flare 1.2 times as wide, a port every 13 cm: 40.6.
    const bench::Case c = elm(140);
    CHECK(uptake::plant(c.subject, bench::middle(c)).ports == within(std::numbers::pi * 140.0 * 1.2 / 13.0, 1e-9));
  }
}
