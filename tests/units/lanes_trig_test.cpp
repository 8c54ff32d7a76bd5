#include "units/lanes_trig.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "units/lanes_array.h"

using units::Lanes;

namespace {

constexpr double ulp_of_one = std::numeric_limits<double>::epsilon();

// The largest difference from libm over [from, to], in steps that miss round numbers.
double worst_difference(double from, double to, int steps) {
  double worst = 0.0;
  for (int i = 0; i <= steps; ++i) {
    const double x = from + (to - from) * i / steps;
    const units::SineCosine both = units::sine_cosine(Lanes{x});
    worst = std::max({worst, std::abs(both.sine[2] - std::sin(x)), std::abs(both.cosine[6] - std::cos(x))});
  }
  return worst;
}

}  // namespace

TEST_SUITE("units") {
  TEST_CASE("sine and cosine of lanes agree with libm to one unit in the last place of 1") {
    CHECK(worst_difference(-7.0, 7.0, 400009) <= ulp_of_one);
    CHECK(worst_difference(-1e5, 1e5, 400009) <= ulp_of_one);
  }

  TEST_CASE("sine of lanes is relatively as exact near nothing, and cosine near a quarter turn") {
    for (double x = 1e-12; x < 0.3; x *= 1.37) {
      CHECK(std::abs(units::sin(Lanes{x})[0] / std::sin(x) - 1.0) <= 2 * ulp_of_one);
      const double y = std::numbers::pi / 2 + x;
      CHECK(std::abs(units::cos(Lanes{y})[7] / std::cos(y) - 1.0) <= 2 * ulp_of_one);
    }
  }

  TEST_CASE("sine and cosine do not see their neighbours") {
    Lanes x;
    for (int lane = 0; lane < Lanes::count; ++lane) x.set(lane, 0.9 * lane - 3.0);
    const units::SineCosine both = units::sine_cosine(x);
    for (int lane = 0; lane < Lanes::count; ++lane) {
      CHECK(both.sine[lane] == units::sin(Lanes{x[lane]})[0]);
      CHECK(both.cosine[lane] == units::cos(Lanes{x[lane]})[0]);
    }
  }

  TEST_CASE("an array goes through lanes whole, whatever its length, and nothing beyond its end is read or written") {
    for (std::size_t length = 0; length <= 19; ++length) {
      std::vector<double> in(length), out(length + 1, -1.0);
      for (std::size_t i = 0; i < length; ++i) in[i] = static_cast<double>(i);
      units::for_blocks(0, length, [&](std::size_t at, auto count) {
        const Lanes x = units::load(in.data() + at, count);
        for (int lane = static_cast<int>(count); lane < Lanes::count; ++lane) CHECK(x[lane] == in.back());
        units::store(x + 0.5, out.data() + at, count);
      });
      for (std::size_t i = 0; i < length; ++i) CHECK(out[i] == in[i] + 0.5);
      CHECK(out[length] == -1.0);
    }
  }
}
