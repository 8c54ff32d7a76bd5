#include "air/sun_position.h"

#include <doctest/doctest.h>

#include <cmath>

#include "support/within.h"

using std::chrono::hours;
using units::Degrees;
using units::LocalDay;
using units::Metres;
using units::Site;
using units::UtcTime;
using namespace std::chrono_literals;

namespace {

Site at(double latitude, double longitude) { return {Degrees{latitude}, Degrees{longitude}, Metres{0}}; }
double elevation(UtcTime instant, const Site& site) { return air::sun_position(instant, site).elevation_geometric.value; }

}  // namespace

TEST_SUITE("air") {
  TEST_CASE("at sunrise and sunset the centre is 50 minutes of arc down, at civil dusk 6 degrees") {
    for (double latitude = -60.0; latitude <= 60.0; latitude += 15.0) {
      for (double longitude = -170.0; longitude <= 170.0; longitude += 34.0) {
        for (int day = 0; day < 365; day += 30) {
          const Site site = at(latitude, longitude);
          const LocalDay date = LocalDay{2025y / 1 / 1} + std::chrono::days{day};
          const air::SunTimes times = air::sun_times(date, site);
          // A second of time is at most 0.0042 degree.
          CHECK(elevation(times.sunrise.value(), site) == within(-50.0 / 60.0, 0.005));
          CHECK(elevation(times.sunset.value(), site) == within(-50.0 / 60.0, 0.005));
          CHECK(elevation(times.civil_dawn.value(), site) == within(-6.0, 0.005));
          CHECK(elevation(times.civil_dusk.value(), site) == within(-6.0, 0.005));
          CHECK(*times.civil_dawn < *times.sunrise);
          CHECK(*times.sunrise < times.transit);
          CHECK(times.transit < *times.sunset);
          CHECK(*times.sunset < *times.civil_dusk);
          CHECK(*times.civil_dusk - *times.civil_dawn < hours{24});
        }
      }
    }
  }

  TEST_CASE("the sun is due south or north, and highest, at transit") {
    const Site chicago = at(41.88, -87.63), sydney = at(-33.87, 151.21);
    const UtcTime noon = air::sun_times(LocalDay{2025y / 6 / 10}, chicago).transit;
    CHECK(air::sun_position(noon, chicago).azimuth.value == within(180.0, 0.1));
    CHECK(elevation(noon, chicago) > elevation(noon - 15min, chicago));
    CHECK(elevation(noon, chicago) > elevation(noon + 15min, chicago));
    const double north = air::sun_position(air::sun_times(LocalDay{2025y / 6 / 10}, sydney).transit, sydney).azimuth.value;
    CHECK(std::remainder(north, 360.0) == within(0.0, 0.1));
  }

  TEST_CASE("where the sun does not cross the horizon there is no sunrise") {
    const air::SunTimes summer = air::sun_times(LocalDay{2025y / 6 / 21}, at(75.0, 20.0));
    const air::SunTimes winter = air::sun_times(LocalDay{2025y / 12 / 21}, at(75.0, 20.0));
    for (const air::SunTimes& times : {summer, winter}) {
      CHECK_FALSE(times.sunrise.has_value());
      CHECK_FALSE(times.sunset.has_value());
    }
    CHECK(elevation(summer.transit, at(75.0, 20.0)) > 0.0);
    CHECK(elevation(winter.transit, at(75.0, 20.0)) < 0.0);
  }

  TEST_CASE("white nights have a sunset but no dusk") {
    const air::SunTimes times = air::sun_times(LocalDay{2025y / 6 / 21}, at(62.0, 20.0));
    CHECK(times.sunset.has_value());
    CHECK_FALSE(times.civil_dusk.has_value());
  }

  TEST_CASE("refraction lifts the sun by about 34 minutes of arc at the horizon and fades with height") {
    const Site site = at(40.0, 0.0);
    double last_lift = 1.0;
    const air::SunTimes times = air::sun_times(LocalDay{2025y / 3 / 20}, site);
    for (UtcTime t = *times.sunrise; t < times.transit; t += 10min) {
      const air::SunPosition p = air::sun_position(t, site);
      const double lift = (p.elevation - p.elevation_geometric).value;
      CHECK(lift > 0.0);
      if (p.elevation_geometric.value > 0.0) {
        CHECK(lift < last_lift);
        last_lift = lift;
        CHECK(lift < 34.0 / 60.0);
      }
    }
  }
}
