#include "air/shortwave.h"

#include <doctest/doctest.h>

#include <cmath>

#include "support/within.h"

using units::Celsius;
using units::Fraction;
using units::Kilopascals;
using units::MegajoulesPerSquareMetre;
using units::Metres;
using units::Millimetres;
using units::Radians;

TEST_SUITE("air") {
  TEST_CASE("more cloud lets less through, never nothing and never more than a clear sky") {
    CHECK(air::cloud_transmission(Fraction{0.0}).value == 1.0);
    for (double c = 0.0; c < 1.0; c += 0.05) CHECK(air::cloud_transmission(Fraction{c + 0.05}) < air::cloud_transmission(Fraction{c}));
    CHECK(air::cloud_transmission(Fraction{1.0}).value == within(0.25, 1e-12));
    for (double c = 0.0; c <= 1.0; c += 0.05)
      CHECK(air::cloud_at_transmission(air::cloud_transmission(Fraction{c})).value == within(c, 1e-6));
    CHECK(air::cloud_at_transmission(Fraction{0.1}).value == 1.0);
    CHECK(air::cloud_at_transmission(Fraction{1.2}).value == 0.0);
  }

  TEST_CASE("light under an overcast is all diffuse") { CHECK(air::diffuse_share(Fraction{1.0}).value == within(1.0, 1e-12)); }

  TEST_CASE("a clear sky is brighter higher up and never brighter than space") {
    const MegajoulesPerSquareMetre ra{40.0};
    for (double z = 0.0; z < 6000.0; z += 250.0) {
      CHECK(air::clear_sky(ra, Metres{z + 250.0}) > air::clear_sky(ra, Metres{z}));
      CHECK(air::clear_sky(ra, Metres{z}) < ra);
    }
  }

  TEST_CASE("moist, dusty or slanting light loses more on its way, and all of it below the horizon") {
    const auto sky = [](double elevation_rad, double water_mm, double turbidity) {
      return air::clear_sky_by_air(MegajoulesPerSquareMetre{1.0}, Radians{elevation_rad}, Kilopascals{98.0}, Millimetres{water_mm},
                                   turbidity)
          .value;
    };
    CHECK(sky(1.0, 30.0, 1.0) < sky(1.0, 10.0, 1.0));
    CHECK(sky(1.0, 10.0, 0.5) < sky(1.0, 10.0, 1.0));
    for (double angle = 0.02; angle < 1.5; angle += 0.02) {
      CHECK(sky(angle, 20.0, 1.0) < sky(angle + 0.02, 20.0, 1.0));
      CHECK(sky(angle, 20.0, 1.0) > 0.0);
      CHECK(sky(angle, 20.0, 1.0) < 0.9);
    }
    CHECK(sky(-0.1, 20.0, 1.0) == 0.0);
  }

  TEST_CASE("what a low sun's beam loses is partly scattered down, by the two branches of ASCE-EWRI appendix D") {
    // Eq. D.3 and D.4: beam 0.98 exp(-0.00146 P / (Kt sin b) - 0.075 (W / sin b)^0.4), diffuse 0.35 - 0.36 Kb from Kb = 0.15 up, else
    // 0.18 + 0.82 Kb; worked out here beside the code.
    for (const double sine : {0.02, 0.05, 0.3, 0.9}) {
      const double beam = 0.98 * std::exp(-0.00146 * 98.0 / sine - 0.075 * std::pow(20.0 / sine, 0.4));
      const double diffuse = beam < 0.15 ? 0.18 + 0.82 * beam : 0.35 - 0.36 * beam;
      CHECK(air::clear_sky_by_air(MegajoulesPerSquareMetre{1.0}, Radians{std::asin(sine)}, Kilopascals{98.0}, Millimetres{20.0}, 1.0).value ==
            within(beam + diffuse, 1e-9));
    }
  }

  TEST_CASE("a wider range of temperature means a clearer day") {
    const auto radiation = [](double high, double low) {
      return air::from_temperature_range(MegajoulesPerSquareMetre{40.0}, Celsius{high}, Celsius{low}, 0.16).value;
    };
    CHECK(radiation(30, 12) > radiation(26, 16));
    CHECK(radiation(20, 20) == 0.0);
  }
}
