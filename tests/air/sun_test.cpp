#include "air/sun.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "support/within.h"

using std::chrono::hours;
using std::chrono::minutes;
using units::Degrees;
using units::Metres;
using units::Site;
using units::UtcTime;
using namespace std::chrono_literals;

namespace {

constexpr UtcTime midsummer = std::chrono::sys_days{2024y / 6 / 21};

// The hours of UTC whose middles share the solar date of `noon`, added up.
double sum_of_hours(const Site& site, UtcTime noon) {
  const units::LocalDay date = air::solar_date(noon, site.longitude);
  double sum = 0.0;
  for (UtcTime start = noon - hours{36}; start < noon + hours{36}; start += hours{1})
    if (air::solar_date(start + minutes{30}, site.longitude) == date) sum += air::extraterrestrial(site, start, start + hours{1}).value;
  return sum;
}

}  // namespace

TEST_SUITE("air") {
  TEST_CASE("the hours of a solar day add up to its daily radiation at every latitude, season and longitude") {
    for (double latitude = -88.0; latitude <= 88.0; latitude += 11.0) {
      for (const double longitude : {-179.0, -118.77, -74.0, 0.0, 13.4, 151.2}) {
        for (int day = 0; day < 366; day += 13) {
          const Site site{Degrees{latitude}, Degrees{longitude}, Metres{0}};
          const UtcTime noon = std::chrono::sys_days{2024y / 1 / 1} + hours{24 * day} +
                               std::chrono::seconds{std::lround(3600.0 * (12.0 - longitude / 15.0))};
          const UtcTime full_hour = std::chrono::floor<hours>(noon);
          const int day_of_year = units::day_of_year(air::solar_date(full_hour, site.longitude));
          const double daily = air::extraterrestrial_daily(air::solar_day(day_of_year, site.latitude)).value;
          CHECK(sum_of_hours(site, full_hour) == within(daily, 1e-9));
        }
      }
    }
  }

  TEST_CASE("an hour cut by sunrise counts its daylight part only, and night counts nothing") {
    // On the equator at an equinox-like day sunrise is 6 h before solar noon.
    const air::SolarDay day = air::solar_day(81, Degrees{0.0});
    const auto clock = [&](double solar_h) {
      return midsummer + std::chrono::seconds{std::lround(3600.0 * (solar_h - day.seasonal_correction.value))};
    };
    const auto radiation = [&](double from, double to) { return air::extraterrestrial(day, clock(from), clock(to), Degrees{0.0}).value; };
    CHECK(radiation(4.0, 5.9) == 0.0);
    CHECK(radiation(5.5, 6.5) == within(radiation(6.0, 6.5), 1e-4));
    CHECK(radiation(5.5, 6.5) > 0.0);
    CHECK(radiation(17.5, 18.5) == within(radiation(17.5, 18.0), 1e-4));
  }

  TEST_CASE("morning mirrors afternoon about solar noon") {
    const air::SolarDay day = air::solar_day(200, Degrees{42.0});
    for (double angle = 0.1; angle < 1.8; angle += 0.1) {
      CHECK(air::elevation_angle(day, units::Radians{angle}).value ==
            within(air::elevation_angle(day, units::Radians{-angle}).value, 1e-12));
      CHECK(air::elevation_angle(day, units::Radians{angle}) < air::elevation_angle(day, units::Radians{angle - 0.1}));
    }
  }

  TEST_CASE("the sun stands on the horizon at the sunset angle") {
    for (int j = 1; j <= 366; j += 5) {
      const air::SolarDay day = air::solar_day(j, Degrees{45.0});
      CHECK(air::elevation_angle(day, day.sunset_angle).value == within(0.0, 1e-9));
    }
  }

  TEST_CASE("polar day lasts 24 hours and polar night none") {
    CHECK(air::daylight(air::solar_day(172, Degrees{75.0})).value == within(24.0, 1e-12));
    CHECK(air::daylight(air::solar_day(355, Degrees{75.0})).value == 0.0);
    CHECK(air::extraterrestrial_daily(air::solar_day(355, Degrees{75.0})).value == 0.0);
  }

  TEST_CASE("the solar date turns at the sun's midnight, not at midnight in Greenwich") {
    const units::LocalDay day{2024y / 6 / 21};
    CHECK(air::solar_date(midsummer + hours{5}, Degrees{-74.0}) == day);
    CHECK(air::solar_date(midsummer + hours{4}, Degrees{-74.0}) == day - std::chrono::days{1});
    CHECK(air::solar_date(midsummer - hours{9}, Degrees{151.2}) == day);
  }
}
