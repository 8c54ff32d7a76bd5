#include "air/humidity.h"

#include <doctest/doctest.h>

#include "air/pressure.h"
#include "air/state.h"
#include "air/wind.h"
#include "support/within.h"

using units::Celsius;
using units::Fraction;
using units::Kilopascals;
using units::Metres;

TEST_SUITE("air") {
  TEST_CASE("dew point undoes saturation pressure from -60 to 60 C") {
    for (double t = -60.0; t <= 60.0; t += 0.25) CHECK(air::dew_point(air::saturation_pressure(Celsius{t})).value == within(t, 1e-9));
  }

  TEST_CASE("warmer air holds more water, and the more so the warmer it is") {
    for (double t = -40.0; t < 60.0; t += 0.5) {
      CHECK(air::saturation_pressure(Celsius{t + 0.5}) > air::saturation_pressure(Celsius{t}));
      CHECK(air::saturation_slope(Celsius{t + 0.5}) > air::saturation_slope(Celsius{t}));
    }
  }

  TEST_CASE("the printed slope is the derivative of saturation pressure to 0.01 %") {
    for (double t = -20.0; t <= 50.0; t += 1.0) {
      const double h = 1e-4;
      const double difference = (air::saturation_pressure(Celsius{t + h}) - air::saturation_pressure(Celsius{t - h})).value / (2.0 * h);
      CHECK(air::saturation_slope(Celsius{t}).value == within(difference, 1e-4 * difference));
    }
  }

  TEST_CASE("the deficit falls with humidity, is nothing in saturated air and never negative") {
    for (double rh = 0.05; rh < 1.0; rh += 0.05)
      CHECK(air::vapour_pressure_deficit(Celsius{25}, Fraction{rh + 0.05}) < air::vapour_pressure_deficit(Celsius{25}, Fraction{rh}));
    CHECK(air::vapour_pressure_deficit(Celsius{25}, Fraction{1.0}).value == 0.0);
    CHECK(air::vapour_pressure_deficit(Celsius{25}, Fraction{1.04}).value == 0.0);
  }

  TEST_CASE("equal dry and wet bulbs mean saturated air, a drier bulb less vapour") {
    using enum air::Ventilation;
    const Kilopascals pressure{101.3};
    CHECK(air::psychrometer_vapour_pressure({Celsius{20}, Celsius{20}}, pressure, assmann_5_m_s).value ==
          within(air::saturation_pressure(Celsius{20}).value, 1e-12));
    CHECK(air::psychrometer_vapour_pressure({Celsius{25}, Celsius{20}}, pressure, indoors_still) <
          air::psychrometer_vapour_pressure({Celsius{25}, Celsius{20}}, pressure, assmann_5_m_s));
  }

  TEST_CASE("pressure falls with height") {
    for (double z = -400.0; z < 9000.0; z += 100.0) CHECK(air::pressure_at(Metres{z + 100.0}) < air::pressure_at(Metres{z}));
  }

  TEST_CASE("wind grows with height") {
    for (double z = 0.5; z < 50.0; z += 0.5) CHECK(air::wind_factor_to_2m(Metres{z + 0.5}) < air::wind_factor_to_2m(Metres{z}));
    CHECK(air::wind_factor_to_2m(Metres{2.0}) == within(1.0, 5e-4));
  }

  TEST_CASE("one state holds together: es less ea is the deficit, and the dew point gives ea back") {
    const air::State state = air::one_state(Celsius{28.0}, 40.0, Kilopascals{100.0});
    CHECK(state.temp_c == 28.0);
    CHECK(state.rh_pct == 40.0);
    CHECK(state.pressure_kpa == 100.0);
    CHECK(state.es_kpa == within(3.780, 0.0005));  // FAO-56 annex 2, table 2.3
    CHECK(state.ea_kpa == within(0.4 * state.es_kpa, 1e-12));
    CHECK(state.vpd_kpa == within(state.es_kpa - state.ea_kpa, 1e-12));
    CHECK(air::saturation_pressure(Celsius{state.dew_point_c.value()}).value == within(state.ea_kpa, 1e-12));
    CHECK(state.slope_kpa_per_c == within(0.220, 0.0005));  // FAO-56 annex 2, table 2.4
    CHECK(state.gamma_kpa_per_c == within(0.0665, 1e-12));  // FAO-56 eq. 8
  }

  TEST_CASE("air without any vapour has no dew point") {
    CHECK_FALSE(air::one_state(Celsius{20.0}, 0.0, Kilopascals{100.0}).dew_point_c.has_value());
  }
}
