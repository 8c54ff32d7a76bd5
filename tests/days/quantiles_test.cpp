#include "days/quantiles.h"

#include <doctest/doctest.h>

#include <limits>

#include "support/within.h"

namespace {
constexpr double never = std::numeric_limits<double>::infinity();
}

TEST_SUITE("days") {
  TEST_CASE("quantiles lie between the draws, at the median-unbiased positions of Hyndman and Fan's type 8") {
    // Position (n + 1/3) p + 1/3 counted from one: of five draws the tenth lies below the first, the median on the third.
    CHECK(*days::quantile({5.0, 1.0, 3.0, 2.0, 4.0}, 0.5) == within(3.0, 1e-12));
    CHECK(*days::quantile({5.0, 1.0, 3.0, 2.0, 4.0}, 0.1) == 1.0);
    CHECK(*days::quantile({5.0, 1.0, 3.0, 2.0, 4.0}, 0.6) == within(16.0 / 3.0 * 0.6 + 1.0 / 3.0, 1e-12));
  }

  TEST_CASE("a range is told by its tenths and its middle") {
    std::vector<double> draws;
    for (int i = 0; i <= 200; ++i) draws.push_back(static_cast<double>((i * 83) % 201));
    const auto range = days::quantiles(draws);
    CHECK(*range.p50 == within(100.0, 1e-9));
    CHECK(*range.p10 == within(*days::quantile(draws, 0.1), 1e-12));
    CHECK(*range.p90 == within(200.0 - *range.p10, 1e-9));
  }

  TEST_CASE("a quantile that a draw which never finishes has a part in is unknown, and one that it has none in is not") {
    CHECK(*days::quantile({1.0, 2.0, 3.0, never, never}, 0.5) == 3.0);
    CHECK_FALSE(days::quantile({1.0, 2.0, 3.0, never, never}, 0.52).has_value());
    CHECK_FALSE(days::quantile({1.0, 2.0, never, never, never}, 0.5).has_value());
    CHECK(*days::quantile({1.0, 2.0, 3.0, never, never}, 0.45) == within(16.0 / 3.0 * 0.45 + 1.0 / 3.0, 1e-12));
  }

  TEST_CASE("the error of a mean comes from runs of draws that follow one another") {
    std::vector<double> draws(32, 0.0);
    for (std::size_t i = 0; i < 8; ++i) draws[i] = 1.0;  // means of the four runs: 1 0 0 0
    CHECK(days::standard_error(draws) == within(0.25, 1e-12));
    CHECK(days::standard_error(std::vector<double>(8, 1.0)) == 0.0);
  }
}
