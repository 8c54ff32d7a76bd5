#include "weather/nearest.h"

#include <doctest/doctest.h>

#include <vector>

using namespace weather;
using units::Degrees;
using units::Site;

namespace {

Site site(double lat, double lon) { return {Degrees{lat}, Degrees{lon}, units::Metres{0.0}}; }

Forecast placed(std::optional<Site> place) {
  Forecast forecast;
  forecast.place = place;
  return forecast;
}

}  // namespace

TEST_SUITE("weather") {
  TEST_CASE("the nearest forecast speaks for a site, and says how far it is") {
    const std::vector forecasts{placed(site(45.0, -93.0)), placed(site(44.1, -93.0)), placed(std::nullopt)};
    const auto chosen = nearest(forecasts, site(44.0, -93.0));
    REQUIRE(chosen);
    CHECK(chosen->index == 1);
    CHECK(chosen->distance->value > 11'000.0);
    CHECK(chosen->distance->value < 11'200.0);
  }

  TEST_CASE("across the date line near is near") {
    const std::vector forecasts{placed(site(0.0, 170.0)), placed(site(0.0, -179.9))};
    CHECK(nearest(forecasts, site(0.0, 179.9))->index == 1);
  }

  TEST_CASE("a forecast without a place serves only where no other does") {
    const std::vector homeless{placed(std::nullopt)};
    REQUIRE(nearest(homeless, site(44.0, -93.0)));
    CHECK(!nearest(homeless, site(44.0, -93.0))->distance);
    const std::vector both{placed(std::nullopt), placed(site(-44.0, 87.0))};
    CHECK(nearest(both, site(44.0, -93.0))->index == 1);
    CHECK(!nearest(std::vector<Forecast>{}, site(44.0, -93.0)));
  }
}
