#include "soil/root_zone.h"

#include <doctest/doctest.h>

#include <numeric>

#include "support/soil_fixture.h"
#include "support/within.h"

using namespace soil;

TEST_SUITE("soil") {
  TEST_CASE("two thirds of the roots stand in the top 30 cm under beta 0.966") {
    // Jackson et al. (1996): temperate deciduous forest has 65 % of its roots in the upper 30 cm (abstract figure for beta 0.966: 1 -
    // 0.966^30 = 0.646).
    Parameters p = soil_fixture::parameters();
    p.layer_bottoms_cm = {10, 30, 300};  // deep enough that nothing is cut off
    const auto zone = RootZone::make(p, soil_fixture::texture("loam"));
    REQUIRE(zone);
    CHECK(zone->root_share()[0] + zone->root_share()[1] == within(0.646, 0.0005));
  }

  TEST_CASE("root shares sum to one and fall per centimetre with depth") {
    const RootZone zone = soil_fixture::root_zone("loam");
    CHECK(std::accumulate(zone.root_share().begin(), zone.root_share().end(), 0.0) == within(1.0, 1e-12));
    for (std::size_t i = 1; i < zone.layers(); ++i)
      CHECK(zone.root_share()[i] / zone.thickness_mm(i) < zone.root_share()[i - 1] / zone.thickness_mm(i - 1));
    CHECK(std::accumulate(zone.breathing_weight().begin(), zone.breathing_weight().end(), 0.0) == within(1.0, 1e-12));
  }

  TEST_CASE("the surface layer never promises more evaporation than it holds") {
    for (const Texture& t : soil_fixture::textures()) {
      const RootZone zone = soil_fixture::root_zone(t.key);
      CHECK(zone.total_evaporable_mm() <= t.total_evaporable_mm);
      CHECK(zone.readily_evaporable_mm() < zone.total_evaporable_mm());
      CHECK(zone.driest_theta(0) >= t.theta_r);
    }
  }

  TEST_CASE("REW is the water of the whole root zone, each layer within its own bounds") {
    const RootZone zone = soil_fixture::root_zone("loam");
    std::vector<double> theta(zone.layers(), zone.texture().theta_s);
    CHECK(zone.rew(theta) == within(1.0, 1e-12));
    theta[0] = zone.driest_theta(0);
    CHECK(zone.rew(theta) == within(1.0 - zone.water_share()[0], 1e-12));
  }

  TEST_CASE("a parameter out of range is named with its limits") {
    Parameters p = soil_fixture::parameters();
    p.root_beta = 1.2;
    CHECK(RootZone::make(p, soil_fixture::texture("loam")).error().line() == "soil.root_beta: '1.2': expected a number from 0.85 to 0.995");
    // Each parameter with its limits: just outside it is refused, on them it is not refused for its own sake.
    struct Limits {
      double Parameters::*member;
      double lowest, highest;
    };
    for (const Limits& limits : {Limits{&Parameters::root_beta, 0.85, 0.995}, Limits{&Parameters::depletion_share_p, 0.1, 0.8},
                                 Limits{&Parameters::compensation, 0.1, 1.0}, Limits{&Parameters::kcb_leafless, 0.0, 1.2},
                                 Limits{&Parameters::kcb_full_leaf, 0.0, 1.4}, Limits{&Parameters::kc_max, 1.0, 1.4},
                                 Limits{&Parameters::exposed_leafless, 0.0, 1.0}, Limits{&Parameters::exposed_full_leaf, 0.0, 1.0},
                                 Limits{&Parameters::crown_share, 0.0, 1.0}, Limits{&Parameters::leaf_area_index, 0.0, 10.0},
                                 Limits{&Parameters::breathing_share, 0.0, 1.0}, Limits{&Parameters::breathing_depth_cm, 1.0, 300.0},
                                 Limits{&Parameters::temperature_memory_h, 1.0, 2000.0}, Limits{&Parameters::memory_h, 24.0, 10000.0},
                                 Limits{&Parameters::correlation_cm, 1.0, 1000.0}, Limits{&Parameters::provider_sd_m3_m3, 0.005, 0.5},
                                 Limits{&Parameters::unknown_rain_mm_per_h, 0.0, 2.0}, Limits{&Parameters::probe_reach_cm, 0.5, 30.0}}) {
      for (const double outside : {limits.lowest - 0.001, limits.highest + 0.001}) {
        Parameters bad = soil_fixture::parameters();
        bad.*limits.member = outside;
        CHECK_FALSE(RootZone::make(bad, soil_fixture::texture("loam")).has_value());
      }
      for (const double allowed : {limits.lowest, limits.highest}) {
        Parameters edge = soil_fixture::parameters();
        edge.*limits.member = allowed;
        const auto made = RootZone::make(edge, soil_fixture::texture("loam"));
        CHECK((made.has_value() || made.error().expected.find("expected a number from") == std::string::npos));
      }
    }
    p = soil_fixture::parameters();
    p.layer_bottoms_cm = {10, 30, 20};
    CHECK(RootZone::make(p, soil_fixture::texture("loam")).error().where == "soil.layer_bottoms_cm");
    p.layer_bottoms_cm = {40, 80};
    CHECK_FALSE(RootZone::make(p, soil_fixture::texture("loam")));
    p.layer_bottoms_cm = {};
    CHECK_FALSE(RootZone::make(p, soil_fixture::texture("loam")));
    // So with a texture's own.
    struct TextureLimits {
      double Texture::*member;
      double lowest, highest;
    };
    for (const TextureLimits& limits :
         {TextureLimits{&Texture::theta_s, 0.2, 0.9}, TextureLimits{&Texture::alpha_per_cm, 0.001, 0.5},
          TextureLimits{&Texture::n, 1.01, 10.0}, TextureLimits{&Texture::ks_cm_per_day, 0.01, 5000.0},
          TextureLimits{&Texture::field_capacity_kpa, 1.0, 50.0}, TextureLimits{&Texture::wilting_kpa, 500.0, 4000.0},
          TextureLimits{&Texture::readily_evaporable_mm, 0.0, 15.0}, TextureLimits{&Texture::total_evaporable_mm, 0.1, 40.0}})
      for (const double outside : {limits.lowest - 0.0005, limits.highest + 0.001}) {
        Texture bad = soil_fixture::texture("loam");
        bad.*limits.member = outside;
        const auto made = RootZone::make(soil_fixture::parameters(), bad);
        REQUIRE_FALSE(made.has_value());
        CHECK(made.error().expected.starts_with("expected a number from"));
      }
    Texture t = soil_fixture::texture("loam");
    t.n = 0.9;
    CHECK(RootZone::make(soil_fixture::parameters(), t).error().where == "soil texture loam.n");
    t = soil_fixture::texture("sand");
    t.field_capacity_kpa = 33;  // what the convention would leave of a class-mean sand: 0.0006
    CHECK(RootZone::make(soil_fixture::parameters(), t).error().where == "soil texture sand");
  }
}
