#include "tree/wet_crown.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "support/shipped_models.h"
#include "support/within.h"
#include "units/random.h"

namespace {

const tree::WetCrown& crown() { return shipped::models().tree.wet_crown; }
constexpr double lai = 4.4;
double capacity_mm() { return crown().store_mm_per_lai * lai; }

}  // namespace

TEST_SUITE("tree") {
  TEST_CASE("an elm's crown holds about two thirds of a millimetre") {
    // 0.15 mm per unit of leaf area index (BROOK90), 4.4.
    double water_mm = 0.0;
    CHECK(tree::wet_hour(crown(), lai, 20.0, 0.0, water_mm) == 1.0);
    CHECK(water_mm == within(0.66, 1e-12));
  }

  TEST_CASE("water on the leaves stays between nothing and what they hold, whatever the hours bring") {
    double water_mm = 0.0;
    for (std::uint64_t i = 0; i < 5000; ++i) {
      const auto random = [i](std::uint64_t stream) { return units::hashed_uniform(11, stream, i); };
      const double rain_mm = std::max(0.0, 8.0 * random(0) - 5.0);
      const double share = tree::wet_hour(crown(), lai, rain_mm, 1.1 * random(1) - 0.2, water_mm);
      CHECK(water_mm >= 0.0);
      CHECK(water_mm <= capacity_mm());
      CHECK(share >= 0.0);
      CHECK(share <= 1.0);
    }
  }

  TEST_CASE("what leaves held and caught is what they hold, give off and let drip") {
    double water_mm = 0.0;
    for (std::uint64_t i = 0; i < 500; ++i) {
      const double rain_mm = 0.3 * units::hashed_uniform(3, 0, i), reference_mm = 0.6 * units::hashed_uniform(3, 1, i);
      const double before_mm = water_mm;
      const double share = tree::wet_hour(crown(), lai, rain_mm, reference_mm, water_mm);
      CHECK(share >= water_mm / capacity_mm());
      const double dripped_mm = std::max(0.0, before_mm + rain_mm - capacity_mm());
      // Evaporation in proportion to the wet share at the end of the hour.
      const double evaporated_mm = crown().drying_factor * reference_mm * water_mm / capacity_mm();
      CHECK(before_mm + rain_mm == within(water_mm + evaporated_mm + dripped_mm, 1e-12));
    }
  }

  TEST_CASE("a wet crown dries in sun and stays wet in fog") {
    double water_mm = capacity_mm();
    double share = 1.0;
    for (int hour = 0; hour < 12; ++hour) {
      const double next = tree::wet_hour(crown(), lai, 0.0, 0.5, water_mm);
      CHECK(next < share);
      share = next;
    }
    CHECK(share < 0.01);
    water_mm = capacity_mm();
    for (int hour = 0; hour < 12; ++hour) CHECK(tree::wet_hour(crown(), lai, 0.0, 0.0, water_mm) == 1.0);
  }

  TEST_CASE("dew wets dry leaves") {
    double water_mm = 0.0;
    CHECK(tree::wet_hour(crown(), lai, 0.0, -0.05, water_mm) > 0.0);
    CHECK(water_mm == within(0.05, 1e-12));
  }

  TEST_CASE("rain on a bare tree leaves a finite share") {
    double water_mm = 0.0;
    const double share = tree::wet_hour(crown(), 0.0, 5.0, 0.3, water_mm);
    CHECK(share >= 0.0);
    CHECK(share <= 1.0);
    CHECK(water_mm < 1e-5);
  }
}
