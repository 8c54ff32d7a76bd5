#include "units/random.h"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <set>
#include <utility>

#include "support/within.h"

TEST_SUITE("units") {
  TEST_CASE("the first 2^k points stand once in every 2^-k interval of every coordinate and for every seed") {
    for (std::uint64_t seed : {0ULL, 1ULL, 20260706ULL})
      for (unsigned dimension = 0; dimension < units::sobol_dimensions; ++dimension) {
        std::set<int> cells;
        for (std::uint32_t i = 0; i < 256; ++i) cells.insert(static_cast<int>(units::sobol(i, dimension, seed) * 256));
        CHECK(cells.size() == 256);
      }
  }

  TEST_CASE("direction numbers are those of the published set to the last coordinate") {
    // Unscrambled points 1, 5, 33 and 63 of coordinates 31, 32, 100 and 223, by SciPy 1.10 (scipy.stats.qmc.Sobol, scramble=False); there
    // the sequence runs in Gray code, so point i stands at i ^ (i >> 1).
    const auto coordinate = [](std::uint32_t i, unsigned dimension) {
      std::uint32_t x = 0;
      for (std::uint32_t gray = i ^ (i >> 1), bit = 0; gray != 0; gray >>= 1, ++bit)
        if (gray & 1U) x ^= units::sobol_direction(dimension, bit);
      return static_cast<double>(x) * 0x1p-32;
    };
    const std::uint32_t points[]{1, 5, 33, 63};
    const std::pair<unsigned, std::array<double, 4>> published[]{{31, {0.5, 0.625, 0.015625, 0.921875}},
                                                                 {32, {0.5, 0.375, 0.484375, 0.828125}},
                                                                 {100, {0.5, 0.125, 0.984375, 0.578125}},
                                                                 {223, {0.5, 0.375, 0.015625, 0.921875}}};
    for (const auto& [dimension, values] : published)
      for (std::size_t i = 0; i < 4; ++i) CHECK(coordinate(points[i], dimension) == values[i]);
  }

  TEST_CASE("pairs of coordinates fill their elementary boxes in the first two dimensions") {
    // Sobol's first two coordinates form a (0, 2)-sequence: any 2^k points stand once in every box of area 2^-k.
    for (unsigned split = 0; split <= 8; ++split) {
      std::set<int> boxes;
      for (std::uint32_t i = 0; i < 256; ++i) {
        const int x = static_cast<int>(units::sobol(i, 0, 7) * (1 << split)), y = static_cast<int>(units::sobol(i, 1, 7) * (1 << (8 - split)));
        boxes.insert(x * 1000 + y);
      }
      CHECK(boxes.size() == 256);
    }
  }

  TEST_CASE("a smooth integral is far closer with scrambled points than chance would have it") {
    // The integral over the unit cube of the product of 12 (x - 1/2)^2 is 1.
    double sum = 0.0;
    const int n = 4096;
    for (std::uint32_t i = 0; i < n; ++i) {
      double product = 1.0;
      for (unsigned d = 0; d < 6; ++d) product *= 12.0 * std::pow(units::sobol(i, d, 3) - 0.5, 2);
      sum += product;
    }
    const double plain_standard_error = std::sqrt((std::pow(1.8, 6) - 1.0) / n);
    CHECK(sum / n == within(1.0, plain_standard_error / 3.0));
  }

  TEST_CASE("hashed uniforms have the mean and variance of a uniform and do not repeat between streams") {
    double sum = 0.0, squares = 0.0;
    std::set<double> seen;
    const int n = 20000;
    for (int i = 0; i < n; ++i) {
      const double u = units::hashed_uniform(5, static_cast<std::uint64_t>(i % 10), static_cast<std::uint64_t>(i / 10));
      seen.insert(u);
      sum += u;
      squares += u * u;
    }
    CHECK(sum / n == within(0.5, 0.01));
    CHECK(squares / n - std::pow(sum / n, 2) == within(1.0 / 12.0, 0.002));
    CHECK(seen.size() == n);
  }

  TEST_CASE("the normal quantile gives the tabulated points") {
    // Wichura 1988, AS 241: the test values of the algorithm.
    CHECK(units::normal_quantile(0.25) == within(-0.6744897501960817, 1e-15));
    CHECK(units::normal_quantile(0.001) == within(-3.090232306167814, 1e-14));
    CHECK(units::normal_quantile(1e-20) == within(-9.262340089798408, 1e-13));
    // The 97.5 % point of statistical tables.
    CHECK(units::normal_quantile(0.975) == within(1.959963984540054, 1e-14));
  }

  TEST_CASE("the normal quantile undoes the distribution function") {
    for (double z = -6.0; z <= 6.0; z += 0.37) CHECK(units::normal_quantile(0.5 * std::erfc(-z / std::sqrt(2.0))) == within(z, 1e-6));
  }
}
