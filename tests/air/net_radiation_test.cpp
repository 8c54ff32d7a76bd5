#include "air/net_radiation.h"

#include <doctest/doctest.h>

#include "support/within.h"

using units::Celsius;
using units::Fraction;
using units::Kilopascals;
using units::MegajoulesPerSquareMetre;
using units::Metres;

TEST_SUITE("air") {
  TEST_CASE("net longwave is a loss between nothing and a third of black-body radiation") {
    for (double t = -30.0; t <= 50.0; t += 5.0) {
      for (double ea = 0.05; ea <= 7.0; ea += 0.25) {
        for (double ratio = -0.2; ratio <= 1.4; ratio += 0.1) {
          const double loss = air::net_longwave_hourly(Celsius{t}, Kilopascals{ea}, Fraction{ratio}).value;
          CHECK(loss >= 0.0);
          CHECK(loss <= 0.34 * air::black_body_daily(Celsius{t}).value / 24.0);
        }
      }
    }
  }

  TEST_CASE("dry air and a clear sky lose more heat") {
    const auto loss = [](double ea, double ratio) { return air::net_longwave_hourly(Celsius{20}, Kilopascals{ea}, Fraction{ratio}).value; };
    CHECK(loss(0.8, 0.9) > loss(1.8, 0.9));
    CHECK(loss(0.8, 0.9) > loss(0.8, 0.5));
    CHECK(loss(0.8, 1.3) == loss(0.8, 1.0));
    CHECK(loss(0.8, 0.1) == loss(0.8, 0.3));
  }

  TEST_CASE("twenty-four equal hours lose what their day loses") {
    const Kilopascals ea{1.2};
    CHECK(24.0 * air::net_longwave_hourly(Celsius{18}, ea, Fraction{0.7}).value ==
          within(air::net_longwave_daily(Celsius{18}, Celsius{18}, ea, Fraction{0.7}).value, 1e-12));
  }

  TEST_CASE("warming soil takes heat in, and gives the same back when it cools") {
    const double in = air::soil_heat(2.1, Metres{1.0}, Celsius{14}, Celsius{16}, 30.0).value;
    CHECK(in > 0.0);
    CHECK(air::soil_heat(2.1, Metres{1.0}, Celsius{16}, Celsius{14}, 30.0).value == within(-in, 1e-15));
    // FAO-56 eq. 44 is eq. 41 with 2.1 MJ/m3/C, 2 m and a month of 30 days: 0.14.
    CHECK(air::soil_heat(2.1, Metres{2.0}, Celsius{14}, Celsius{16}, 30.0).value ==
          within(air::soil_heat_since_month(Celsius{14}, Celsius{16}).value, 1e-12));
  }

  TEST_CASE("soil takes a tenth of net radiation by day and gives up to half of the loss by night") {
    CHECK(air::soil_heat_hourly(MegajoulesPerSquareMetre{2.0}).value == within(0.2, 1e-15));
    CHECK(air::soil_heat_hourly(MegajoulesPerSquareMetre{-0.2}).value == within(-0.1, 1e-15));
  }
}
