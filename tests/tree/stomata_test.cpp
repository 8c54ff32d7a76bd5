#include "tree/stomata.h"

#include <doctest/doctest.h>

#include <cmath>

#include "support/shipped_models.h"
#include "support/within.h"

namespace {

const tree::Stomata& stomata() { return shipped::models().tree.stomata; }

// Response of one leaf under a light of `w_m2`, full light being 1.
double leaf(double w_m2) { return w_m2 / (w_m2 + stomata().light_half_w_m2); }

}  // namespace

TEST_SUITE("tree") {
  TEST_CASE("water loss against dryness of air follows Oren's curve") {
    // Oren et al. (1999) with m = 0.6: conductance times deficit, relative to 1 kPa; points worked out by another program
    // (2.76 kPa is air of 30 C and 35 %).
    struct Point {
      double vpd_kpa, relative;
    };
    for (const Point& p : {Point{0.3, 0.52}, {0.5, 0.71}, {1.0, 1.0}, {1.95, 1.17}, {2.76, 1.08}, {4.0, 0.67}})
      CHECK(tree::oren_response(stomata(), p.vpd_kpa) * p.vpd_kpa == within(p.relative, 0.0051));
  }

  TEST_CASE("water loss peaks near 2 kPa and falls beyond") {
    const auto loss = [](double vpd_kpa) { return tree::oren_response(stomata(), vpd_kpa) * vpd_kpa; };
    const double peak_kpa = std::exp(1.0 / 0.6 - 1.0);  // where d(D - m D ln D)/dD = 0
    CHECK(peak_kpa == within(1.95, 0.005));
    for (double d = 0.05; d < 4.0; d += 0.05) CHECK(loss(d) <= loss(peak_kpa) + 1e-12);
  }

  TEST_CASE("the response to dryness is held below the cap and above the floor") {
    CHECK(tree::oren_response(stomata(), 0.0) == tree::oren_response(stomata(), stomata().vpd_cap_kpa));
    CHECK(tree::oren_response(stomata(), 9.0) == stomata().vpd_floor);
  }

  TEST_CASE("every form of the response to dryness is 1 at 1 kPa and falls from there") {
    for (const auto form : {tree::VpdForm::oren, tree::VpdForm::medlyn, tree::VpdForm::jarvis}) {
      CHECK(tree::vpd_response(form, stomata(), 1.0) == within(1.0, 1e-12));
      for (double d = 0.3; d < 4.0; d += 0.05)
        CHECK(tree::vpd_response(form, stomata(), d + 0.05) <= tree::vpd_response(form, stomata(), d));
    }
  }

  TEST_CASE("Medlyn's leaf loses more the drier the air, Jarvis's loses most somewhere and less beyond") {
    const auto loss = [](tree::VpdForm form, double d) { return d * tree::vpd_response(form, stomata(), d); };
    for (double d = 0.05; d < 5.0; d += 0.05) CHECK(loss(tree::VpdForm::medlyn, d + 0.05) > loss(tree::VpdForm::medlyn, d));
    const double n = stomata().jarvis_steepness;
    const double peak_kpa = stomata().jarvis_half_kpa * std::pow(n - 1.0, -1.0 / n);  // where d(D/(1 + (D/h)^n))/dD = 0
    for (double d = 0.05; d < 5.0; d += 0.05) CHECK(loss(tree::VpdForm::jarvis, d) <= loss(tree::VpdForm::jarvis, peak_kpa) + 1e-12);
  }

  TEST_CASE("a Jarvis leaf is half open at its half mark, against damp air") {
    CHECK(tree::vpd_response(tree::VpdForm::jarvis, stomata(), stomata().jarvis_half_kpa) ==
          within(0.5 * tree::vpd_response(tree::VpdForm::jarvis, stomata(), 0.001), 1e-5));
  }

  TEST_CASE("stomata are shut at 0 and 40 C and open from 10 to 30 C") {
    // Temperature points of the deciduous set of BROOK90 (Federer 2002).
    const auto response = [](double t) { return tree::temperature_response(stomata(), t); };
    CHECK(response(0.0) == 0.0);
    CHECK(response(10.0) == 1.0);
    CHECK(response(20.0) == 1.0);
    CHECK(response(30.0) == 1.0);
    CHECK(response(40.0) == 0.0);
    CHECK(response(5.0) == within(0.75, 1e-12));  // parabolic: 1 - (1/2)^2
    CHECK(response(35.0) == within(0.75, 1e-12));
    CHECK(response(-20.0) == 0.0);
    CHECK(response(55.0) == 0.0);
  }

  TEST_CASE("a crown of few leaves responds to light as one leaf does") {
    for (const double w_m2 : {0.0, 20.0, 100.0, 400.0, 900.0})
      CHECK(tree::canopy_light(stomata().light_half_w_m2, 0.6, w_m2, 1e-5) == within(leaf(w_m2), 1e-5));
  }

  TEST_CASE("a dense crown saturates with light and shades itself") {
    const auto response = [](double w_m2, double lai) { return tree::canopy_light(stomata().light_half_w_m2, 0.63, w_m2, lai); };
    double before = 0.0, gain_before = 1.0;
    for (double w_m2 = 100.0; w_m2 <= 1000.0; w_m2 += 100.0) {
      const double gain = response(w_m2, 4.4) - before;
      CHECK(gain > 0.0);
      CHECK(gain < gain_before);
      before = response(w_m2, 4.4);
      gain_before = gain;
    }
    CHECK(response(0.0, 4.4) == 0.0);
    CHECK(response(1e9, 4.4) == within(1.0, 1e-5));
    for (double lai = 0.5; lai < 10.0; lai += 0.5) CHECK(response(500.0, lai + 0.5) < response(500.0, lai));
  }

  TEST_CASE("the canopy integral is the mean of its leaves' responses") {
    constexpr double w_m2 = 500.0, extinction = 0.63, lai = 4.4;
    double sum = 0.0;
    constexpr int layers = 20000;
    for (int i = 0; i < layers; ++i) sum += leaf(w_m2 * std::exp(-extinction * lai * (i + 0.5) / layers));
    CHECK(tree::canopy_light(stomata().light_half_w_m2, extinction, w_m2, lai) == within(sum / layers, 1e-8));
  }

  TEST_CASE("the root signal is 1 in moist soil, falls in proportion in dry soil and shuts at the wilting point") {
    const auto signal = [](double rew, double sharpness) { return tree::root_signal(rew, 0.43, sharpness); };
    CHECK(signal(0.0, 3.6) == 0.0);
    CHECK(signal(0.0, 1.5) == 0.0);  // the bend alone would be -0.13: leaves that take water from the air
    CHECK(signal(1.5, 3.6) == within(1.0, 0.01));
    // A very sharp knee is Granier's: linear below, 1 above.
    CHECK(signal(0.215, 300.0) == within(0.5, 1e-6));
    CHECK(signal(0.86, 300.0) == within(1.0, 1e-6));
    CHECK(signal(0.43, 300.0) == within(1.0, 0.003));
    for (double rew = 0.01; rew < 1.5; rew += 0.01) CHECK(signal(rew + 0.01, 3.6) > signal(rew, 3.6));
  }

  TEST_CASE("conductances follow the viscosity of water") {
    // Viscosity at 20 C over that at 0 to 30 C (Vogel form, two decimals).
    struct Point {
      double temp_c, relative;
    };
    for (const Point& p : {Point{0, 0.57}, {5, 0.67}, {8, 0.73}, {10, 0.77}, {15, 0.88}, {20, 1.0}, {25, 1.13}, {30, 1.26}})
      CHECK(tree::fluidity(p.temp_c) == within(p.relative, 0.0051));
  }

  TEST_CASE("cold roots hold leaves back, frozen ones shut them, warm ones do nothing") {
    CHECK(tree::cold_roots(stomata(), -5.0) == 0.0);
    CHECK(tree::cold_roots(stomata(), 0.0) == 0.0);
    CHECK(tree::cold_roots(stomata(), 4.0) == within(0.5 * tree::fluidity(4.0), 1e-12));
    CHECK(tree::cold_roots(stomata(), 8.0) == within(0.73, 0.0051));
    CHECK(tree::cold_roots(stomata(), 25.0) == 1.0);
  }

  TEST_CASE("a day of flooding leaves a little over half of the conductance") {
    // 53 % green ash, 56 % swamp chestnut oak, 49 % baldcypress after 24 h (Forest Science 32:914, 1986, abstract): 0.55 taken.
    CHECK(tree::flooding_response(stomata(), 0.0) == 1.0);
    CHECK(tree::flooding_response(stomata(), 24.0) == within(0.53, 0.05));
    CHECK(tree::flooding_response(stomata(), 240.0) == tree::flooding_response(stomata(), 24.0));
    CHECK(tree::flooding_response(stomata(), 12.0) == within(0.775, 1e-12));
  }
}
