#include "soil/pedotransfer.h"

#include <doctest/doctest.h>

#include "soil/retention.h"
#include "soil/root_zone.h"
#include "support/soil_fixture.h"
#include "support/within.h"

using namespace soil;

TEST_SUITE("soil") {
  TEST_CASE("a texture made from composition goes through the three water contents it was made from") {
    for (double sand = 0.0; sand <= 0.9; sand += 0.1)
      for (double clay = 0.05; clay <= 0.5 && sand + clay <= 1.0; clay += 0.05) {
        CAPTURE(sand);
        CAPTURE(clay);
        const Composition c{sand, clay, 2.5};
        const auto points = saxton_rawls(c);
        REQUIRE(points);
        const auto t = texture_of(c);
        REQUIRE(t);
        CHECK(t->theta_s == points->theta_s);
        CHECK(theta_at_suction(*t, 33.0 / kpa_per_cm) == within(points->theta_33, 1e-9));
        CHECK(theta_at_suction(*t, 1500.0 / kpa_per_cm) == within(points->theta_1500, 1e-9));
        CHECK(t->ks_cm_per_day == within(points->ks_mm_per_h * 2.4, 1e-9));
        // The least residual content that a soil-like alpha allows: none, or just enough.
        if (t->theta_r == 0.0)
          CHECK(t->alpha_per_cm <= 0.145);
        else
          CHECK(t->alpha_per_cm == within(0.145, 1e-9));
        CHECK(t->readily_evaporable_mm < t->total_evaporable_mm);
        CHECK(RootZone::make(soil_fixture::parameters(), *t));
      }
  }

  TEST_CASE("more clay holds more water at wilting and lets less through") {
    const auto loam = saxton_rawls({0.40, 0.20, 2.5}), clay_loam = saxton_rawls({0.40, 0.35, 2.5});
    CHECK(clay_loam->theta_1500 > loam->theta_1500);
    CHECK(clay_loam->ks_mm_per_h < loam->ks_mm_per_h);
  }

  TEST_CASE("readily evaporable water of a clay follows its two branches") {
    // Allen et al. (2005), from memory: 11 - 6 clay above 50 % clay, else 8 + 8 clay; sands hold less in all and are capped by that.
    CHECK(texture_of({0.10, 0.52, 2.5})->readily_evaporable_mm == within(11.0 - 6.0 * 0.52, 1e-9));
    CHECK(texture_of({0.10, 0.48, 2.5})->readily_evaporable_mm == within(8.0 + 8.0 * 0.48, 1e-9));
  }

  TEST_CASE("a composition that cannot be names its field") {
    CHECK(saxton_rawls({1.2, 0.1, 2.5}).error().where == "sand");
    CHECK(saxton_rawls({0.2, 0.7, 2.5}).error().where == "clay");
    CHECK(saxton_rawls({0.6, 0.5, 2.5}).error().where == "sand + clay");
    CHECK(saxton_rawls({0.7, 0.35, 2.5}).error().where == "sand + clay");
    CHECK(saxton_rawls({0.65, 0.35, 2.5}).has_value());
    CHECK(saxton_rawls({0.4, 0.2, 20}).error().where == "organic_matter_pct");
    CHECK(texture_of({0.4, -0.2, 2.5}).error().where == "clay");
  }
}
