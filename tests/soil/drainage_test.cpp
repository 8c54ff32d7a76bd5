#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "soil/redistribution.h"
#include "soil/water_balance.h"
#include "support/soil_fixture.h"
#include "support/within.h"

using namespace soil;

namespace {

RootZone one_layer(const char* key) {
  Parameters p = soil_fixture::parameters();
  p.layer_bottoms_cm = {15};
  return RootZone::make(p, soil_fixture::texture(key)).value();
}

// The same law by another method: dW/dt = -K(W / z), classical Runge-Kutta in steps of a second.
double theta_by_runge_kutta(const Texture& t, double theta, double thickness_mm, double hours) {
  const double dt = 1.0 / 3600.0;
  const auto rate = [&](double x) { return -conductivity_mm_per_h(t, x) / thickness_mm; };
  for (double time = 0.0; time < hours - 0.5 * dt; time += dt) {
    const double a = rate(theta), b = rate(theta + 0.5 * dt * a), c = rate(theta + 0.5 * dt * b), d = rate(theta + dt * c);
    theta += dt * (a + 2.0 * b + 2.0 * c + d) / 6.0;
  }
  return theta;
}

double theta_by_balance(const RootZone& zone, double theta, int steps, double hours) {
  std::vector<double> layer{theta};
  for (int i = 0; i < steps; ++i) redistribute(zone, 0.0, hours / steps, layer);
  return layer[0];
}

}  // namespace

TEST_SUITE("soil") {
  TEST_CASE("drainage of a wet layer agrees with an independent integration, and twice the steps halve the error") {
    for (const char* key : {"sandy_loam", "loam", "silt_loam", "clay"}) {
      CAPTURE(std::string(key));
      const RootZone zone = one_layer(key);
      const Texture& t = zone.texture();
      const double start = t.theta_r + 0.95 * (t.theta_s - t.theta_r);
      const double exact = theta_by_runge_kutta(t, start, zone.thickness_mm(0), 24.0);
      const double coarse = theta_by_balance(zone, start, 4 * 24, 24.0), fine = theta_by_balance(zone, start, 8 * 24, 24.0);
      CHECK(coarse == within(exact, 0.002));
      CHECK((coarse - exact) / (fine - exact) == within(2.0, 0.25));
    }
  }

  TEST_CASE("steady supply ends in steady flow: every layer passes what it gets") {
    for (const Texture& t : soil_fixture::textures()) {
      CAPTURE(t.key);
      const RootZone zone = soil_fixture::root_zone(t.key);
      std::vector<double> theta(zone.layers(), theta_field_capacity(t));
      const double supply = 0.2 * conductivity_mm_per_h(t, t.theta_s);
      Redistribution last;
      for (int h = 0; h < 40000 && std::abs(last.drained_mm - supply) > 1e-8; ++h) last = redistribute(zone, supply, 1.0, theta);
      CHECK(last.drained_mm == within(supply, 1e-7));
      CHECK(last.left_on_surface_mm == 0.0);
      for (double layer : theta) CHECK(conductivity_mm_per_h(t, layer) / supply == within(1.0, 1e-4));
    }
  }

  TEST_CASE("no step, however long, overfills a layer, makes water or loses it") {
    for (const Texture& t : soil_fixture::textures()) {
      CAPTURE(t.key);
      const RootZone zone = soil_fixture::root_zone(t.key);
      for (double dt_h : {1e-3, 0.25, 1.0, 24.0})
        for (double supply : {0.0, 1.0, 300.0}) {
          std::vector<double> theta{t.theta_s, theta_wilting(t), t.theta_s, theta_field_capacity(t), t.theta_s};
          double before = supply, after = 0.0;
          for (std::size_t i = 0; i < zone.layers(); ++i) before += theta[i] * zone.thickness_mm(i);
          const Redistribution r = redistribute(zone, supply, dt_h, theta);
          for (std::size_t i = 0; i < zone.layers(); ++i) {
            after += theta[i] * zone.thickness_mm(i);
            CHECK(theta[i] <= t.theta_s + 1e-12);
            CHECK(theta[i] >= t.theta_r);
          }
          CHECK(after + r.left_on_surface_mm + r.drained_mm == within(before, 1e-9));
        }
    }
  }
}
