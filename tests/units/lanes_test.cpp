#include "units/lanes.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "support/within.h"

using units::Lanes;

namespace {

// Runs `check(x)` over [from, to] in steps that miss round numbers.
template <class Check>
void sweep(double from, double to, int steps, Check check) {
  for (int i = 0; i <= steps; ++i) check(from + (to - from) * i / steps);
}

}  // namespace

TEST_SUITE("units") {
  TEST_CASE("exp of lanes agrees with libm to 4 units in the last place over the whole range") {
    double worst = 0.0;
    sweep(-700.0, 700.0, 200003, [&](double x) { worst = std::max(worst, std::abs(units::exp(Lanes{x})[3] / std::exp(x) - 1.0)); });
    sweep(-1.0, 1.0, 200003, [&](double x) { worst = std::max(worst, std::abs(units::exp(Lanes{x})[5] / std::exp(x) - 1.0)); });
    CHECK(worst < 4 * std::numeric_limits<double>::epsilon());
  }

  TEST_CASE("exp of lanes is held where doubles end") {
    CHECK(units::exp(Lanes{-1e9})[0] == within(0.0, 1e-300));
    CHECK(std::isfinite(units::exp(Lanes{1e9})[0]));
    CHECK(units::exp(Lanes{0.0})[0] == 1.0);
  }

  TEST_CASE("log of lanes agrees with libm to 4 units in the last place") {
    double worst = 0.0;
    sweep(-700.0, 700.0, 200003, [&](double e) {
      const double x = std::exp(e), exact = std::log(x);
      worst = std::max(worst, std::abs(units::log(Lanes{x})[2] - exact) / std::max(1.0, std::abs(exact)));
    });
    sweep(0.5, 2.0, 200003, [&](double x) { worst = std::max(worst, std::abs(units::log(Lanes{x})[2] - std::log(x))); });
    CHECK(worst < 4 * std::numeric_limits<double>::epsilon());
  }

  TEST_CASE("lanes do not see their neighbours") {
    Lanes x{1.0};
    for (int lane = 0; lane < Lanes::count; ++lane) x.set(lane, 0.3 + lane);
    const Lanes y = units::exp(2.5 * units::log(x)), root = units::sqrt(x);
    for (int lane = 0; lane < Lanes::count; ++lane) {
      CHECK(y[lane] == within(std::pow(0.3 + lane, 2.5), 1e-12));
      CHECK(root[lane] == std::sqrt(0.3 + lane));
    }
  }

  TEST_CASE("all is true only when every lane is") {
    Lanes x{1.0};
    CHECK(units::all(x < 2.0));
    for (int lane = 0; lane < Lanes::count; ++lane) {
      Lanes one = x;
      one.set(lane, 3.0);
      CHECK_FALSE(units::all(one < 2.0));
    }
  }
}
