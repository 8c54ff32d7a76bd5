#include "soil/retention.h"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <string>

#include "support/soil_fixture.h"
#include "support/within.h"

using namespace soil;

TEST_SUITE("soil") {
  TEST_CASE("suction undoes water content from saturation to air-dry in all twelve textures") {
    for (const Texture& t : soil_fixture::textures()) {
      CAPTURE(t.key);
      for (double log_h = -1.0; log_h <= 6.0; log_h += 0.05) {
        const double h = std::pow(10.0, log_h);
        const double theta = theta_at_suction(t, h);
        // In water content everywhere; in suction where a water content still tells suctions apart: sand at its residual does not.
        CHECK(theta_at_suction(t, suction_at_theta(t, theta)) == within(theta, 1e-14));
        if (effective_saturation(t, theta) > 1e-4 && effective_saturation(t, theta) < 0.9999)
          CHECK(suction_at_theta(t, theta) / h == within(1.0, 1e-8));
      }
    }
  }

  TEST_CASE("water content falls and suction rises without a step") {
    for (const Texture& t : soil_fixture::textures()) {
      double theta = t.theta_s;
      for (double h = 1.0; h < 1e5; h *= 1.3) {
        const double next = theta_at_suction(t, h);
        CHECK(next < theta);
        CHECK(next > t.theta_r);
        theta = next;
      }
    }
  }

  TEST_CASE("a soil at or below its residual water content has a finite suction") {
    const Texture t = soil_fixture::texture("sand");
    CHECK(suction_at_theta(t, t.theta_r) == driest_suction_cm);
    CHECK(suction_at_theta(t, 0.0) == driest_suction_cm);
    CHECK(suction_at_theta(t, 1.0) == 0.0);
  }

  TEST_CASE("relative conductivity is one when saturated, none at residual, and never falls with water") {
    for (const Texture& t : soil_fixture::textures()) {
      CHECK(relative_conductivity(t, 1.0) == 1.0);
      CHECK(relative_conductivity(t, 0.0) == 0.0);
      double before = 0.0;
      for (double s = 1e-3; s <= 1.0; s += 1e-3) {
        const double k = relative_conductivity(t, s);
        CHECK(k > before);
        CHECK(k <= 1.0);
        before = k;
      }
    }
  }

  TEST_CASE("Mualem conductivity of a loam agrees with the closed form worked by hand") {
    // n 1.56, m 0.358974: at Se 0.5, Se^(1/m) = 0.5^2.785714 = 0.145008; (1 - 0.145008)^0.358974 = 0.945301; K = 0.707107 * 0.054699^2.
    CHECK(relative_conductivity(soil_fixture::texture("loam"), 0.5) == within(0.0021157, 2e-6));
  }

  TEST_CASE("very dry fine soil still conducts a little: no digit is lost to cancellation") {
    const Texture clay = soil_fixture::texture("clay");
    // Series: 1 - (1 - x)^m = m x for x = Se^(1/m) far below 1e-16.
    const double m = 1.0 - 1.0 / clay.n;
    const double expected = std::sqrt(0.05) * std::pow(m * std::pow(0.05, 1.0 / m), 2.0);
    CHECK(relative_conductivity(clay, 0.05) / expected == within(1.0, 1e-9));
  }

  TEST_CASE("the marks of available water are wilting at 1500 kPa and the texture's own field capacity") {
    for (const Texture& t : soil_fixture::textures()) {
      const RewCurve curve(t);
      CHECK(curve.rew(theta_at_suction(t, 1500.0 / 0.0980665)) == within(0.0, 1e-12));
      CHECK(curve.rew(theta_at_suction(t, t.field_capacity_kpa / 0.0980665)) == within(1.0, 1e-12));
      CHECK(curve.psi_mpa(0.0) == within(-1.5, 1e-6));
      CHECK(curve.psi_mpa(1.0) == within(-t.field_capacity_kpa / 1000.0, 1e-9));
    }
  }

  TEST_CASE("field capacity of the coarse and medium textures is where free drainage has fallen to a tenth of a millimetre a day") {
    for (const char* key : {"sand", "loamy_sand", "sandy_loam", "loam", "silt", "silt_loam", "sandy_clay_loam"}) {
      CAPTURE(std::string(key));
      const Texture t = soil_fixture::texture(key);
      CHECK(24.0 * conductivity_mm_per_h(t, theta_field_capacity(t)) == within(0.1, 0.015));  // stated to two digits of suction
    }
  }

  TEST_CASE("available water is within a hundredth of FAO-56 table 19 for loam, silt loam, silt and silty clay loam") {
    // FC - WP of the table, m3/m3. The sands, sandy loam and the clays of Carsel & Parrish hold less: docs/model/soil.md lists by how much.
    struct Row {
      const char* key;
      double low, high;
    };
    for (const Row& row :
         std::array<Row, 4>{{{"loam", 0.13, 0.18}, {"silt_loam", 0.13, 0.19}, {"silt", 0.16, 0.20}, {"silty_clay_loam", 0.13, 0.18}}}) {
      CAPTURE(std::string(row.key));
      const double available = RewCurve(soil_fixture::texture(row.key)).available();
      CHECK(available >= row.low - 0.01);
      CHECK(available <= row.high + 0.01);
    }
  }

  TEST_CASE("water potential and conductivity rise with REW, and potential is undone by its inverse") {
    for (const Texture& t : soil_fixture::textures()) {
      const RewCurve curve(t);
      for (double rew = 0.02; rew <= 1.0; rew += 0.02) {
        CHECK(curve.psi_mpa(rew) > curve.psi_mpa(rew - 0.02));
        CHECK(curve.conductivity_ratio(rew, 0.2) > curve.conductivity_ratio(rew - 0.02, 0.2));
        CHECK(rew_at_psi(curve, curve.psi_mpa(rew)) == within(rew, 1e-9));
      }
      CHECK(curve.conductivity_ratio(0.2, 0.2) == 1.0);
    }
  }
}
