#include "air/reference_et.h"

#include <doctest/doctest.h>

#include "air/humidity.h"
#include "air/pressure.h"
#include "support/within.h"

using units::Celsius;
using units::Kilopascals;
using units::MegajoulesPerSquareMetre;
using units::MetresPerSecond;

namespace {

air::Evaporation fair_hour() {
  air::Evaporation e;
  e.temperature = Celsius{28};
  e.slope = air::saturation_slope(e.temperature);
  e.psychrometric_constant = air::psychrometric_constant(Kilopascals{99});
  e.deficit = Kilopascals{2.2};
  e.wind_2m = MetresPerSecond{2.0};
  e.net_radiation = MegajoulesPerSquareMetre{1.8};
  e.soil_heat = MegajoulesPerSquareMetre{0.18};
  return e;
}

}  // namespace

TEST_SUITE("air") {
  TEST_CASE("more radiation and drier air ask for more water") {
    for (const auto& form : {air::fao56_hourly, air::fao56_daily}) {
      const double base = form(fair_hour()).total().value;
      air::Evaporation brighter = fair_hour(), drier = fair_hour();
      brighter.net_radiation = MegajoulesPerSquareMetre{2.2};
      drier.deficit = Kilopascals{3.0};
      CHECK(form(brighter).total().value > base);
      CHECK(form(drier).total().value > base);
    }
  }

  TEST_CASE("without wind only radiation evaporates") {
    air::Evaporation still = fair_hour();
    still.wind_2m = MetresPerSecond{0};
    CHECK(air::fao56_hourly(still).from_dry_air.value == 0.0);
    CHECK(air::fao56_hourly(still).from_radiation.value > 0.0);
  }

  TEST_CASE("by day the grass of ASCE gives more than that of FAO-56, and alfalfa more than grass") {
    const double fao = air::fao56_hourly(fair_hour()).total().value;
    const double grass = air::asce_short_hourly(fair_hour()).total().value;
    const double alfalfa = air::asce_tall_hourly(fair_hour()).total().value;
    CHECK(fao < grass);
    CHECK(grass < alfalfa);
  }

  TEST_CASE("at night ASCE closes the surface: less evaporates than FAO-56 lets go") {
    air::Evaporation night = fair_hour();
    night.net_radiation = MegajoulesPerSquareMetre{-0.15};
    night.soil_heat = MegajoulesPerSquareMetre{-0.075};
    CHECK(air::asce_short_hourly(night).total() < air::fao56_hourly(night).total());
  }

  TEST_CASE("the two printed slopes are one curve to 0.01 %") {
    for (double t = -20.0; t <= 45.0; t += 5.0)
      CHECK(air::asce_saturation_slope(Celsius{t}) / air::saturation_slope(Celsius{t}) == within(1.0, 1e-4));
  }

  TEST_CASE("a still day without a range of temperature has no Hargreaves evapotranspiration") {
    CHECK(air::hargreaves_daily(Celsius{20}, Celsius{20}, MegajoulesPerSquareMetre{40}).value == 0.0);
    CHECK(air::hargreaves_daily(Celsius{30}, Celsius{14}, MegajoulesPerSquareMetre{40}) >
          air::hargreaves_daily(Celsius{26}, Celsius{18}, MegajoulesPerSquareMetre{40}));
  }
}
