#include "tree/hydraulics.h"

#include <doctest/doctest.h>

#include <cmath>

#include "support/shipped_models.h"
#include "support/within.h"

namespace {

const tree::Hydraulics& hydraulics() { return shipped::models().tree.hydraulics; }

tree::Size<double> elm_of(double dbh_cm) {
  const tree::Species elm = shipped::species("american elm");
  return tree::size(elm.allometry, tree::Measured{units::Centimetres{dbh_cm}, {}}, elm.huber_m2_m2, 0.0);
}

}  // namespace

TEST_SUITE("tree") {
  TEST_CASE("half of the conductance is left at P50, all at no tension, hardly any far beyond") {
    for (const int halves : {2, 5, 10}) {
      CHECK(tree::vulnerability(-1.1, 1.1, halves) == within(0.5, 1e-15));
      CHECK(tree::vulnerability(0.0, 1.1, halves) == 1.0);
      CHECK(tree::vulnerability(0.4, 1.1, halves) == 1.0);
    }
    CHECK(tree::vulnerability(-2.2, 1.1, 5) == within(std::pow(2.0, -std::pow(2.0, 2.5)), 1e-15));
    CHECK(tree::vulnerability(-30.0, 1.1, 5) < 1e-300);
    for (double psi = 0.0; psi > -4.0; psi -= 0.05) CHECK(tree::vulnerability(psi - 0.05, 1.1, 5) < tree::vulnerability(psi, 1.1, 5));
  }

  TEST_CASE("powers in halves are powers") {
    for (int halves = 0; halves <= 20; ++halves)
      for (const double x : {0.0, 1e-6, 0.3, 1.0, 2.7, 40.0}) {
        const double power = std::pow(x, 0.5 * halves);
        CHECK(tree::half_power(x, halves) == within(power, 1e-13 * power));
      }
    CHECK(tree::halves_of(2.5) == 5);
    CHECK(tree::halves_of(5.0) == 10);
  }

  TEST_CASE("root and stem in series give the whole plant's conductance") {
    // 8 mm/d/MPa over a crown of 460 m2 is 153 L/h/MPa (BROOK90's default).
    auto size = elm_of(120);
    size.crown_area_m2 = 460.0;
    const auto p = tree::plumbing(hydraulics(), size, 8.0, 0.5, 22.0);
    CHECK(1.0 / (1.0 / p.root_l_h_mpa + 1.0 / p.xylem_l_h_mpa) == within(153.0, 0.5));
    const auto q = tree::plumbing(hydraulics(), size, 8.0, 0.62, 22.0);
    CHECK(1.0 / (1.0 / q.root_l_h_mpa + 1.0 / q.xylem_l_h_mpa) == within(8.0 / 24.0 * 460.0, 1e-9));
    CHECK(1.0 / q.root_l_h_mpa == within(0.62 / (8.0 / 24.0 * 460.0), 1e-15));
  }

  TEST_CASE("base and crown share the elastic water of all sapwood") {
    const auto size = elm_of(90);
    const auto p = tree::plumbing(hydraulics(), size, 4.7, 0.53, 22.0);
    CHECK(p.base_store_l_mpa + p.crown_store_l_mpa == within(22.0 * size.sapwood_m3, 1e-9));
    CHECK(p.base_store_l_mpa / p.crown_store_l_mpa == within(3.0 / 7.0, 1e-12));
  }

  TEST_CASE("lifting water through 26 m of tree costs 0.14 MPa") {
    // rho g h with 0.55 of the height: 1000 x 9.81 x 14.3 Pa.
    CHECK(tree::plumbing(hydraulics(), elm_of(120), 4.7, 0.53, 22.0).lift_mpa == within(0.1403, 0.0005));
  }
}
