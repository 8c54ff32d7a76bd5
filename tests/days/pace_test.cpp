#include "days/pace.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "support/within.h"
#include "units/random.h"

TEST_SUITE("days") {
  TEST_CASE("chance and hours of work at a crew's pace are those counted over a million paces") {
    const days::PacedWork work{2.3, 0.35};
    for (const double limit_h : {0.4, 1.7, 2.3, 3.1, 6.0}) {
      // The midpoints of a million equal shares of the normal distribution.
      const int n = 1'000'000;
      double within_limit = 0.0, hours = 0.0, all = 0.0;
      for (int i = 0; i < n; ++i) {
        const double h = work.median_h * std::exp(work.ln_sd * units::normal_quantile((i + 0.5) / n));
        within_limit += h <= limit_h ? 1.0 : 0.0;
        hours += std::min(h, limit_h);
        all += h;
      }
      CHECK(days::chance_within(work, limit_h) == within(within_limit / n, 2e-6));
      CHECK(days::expected_up_to(work, limit_h) == within(hours / n, 1e-5));
      CHECK(days::expected(work) == within(all / n, 1e-5));
    }
  }

  TEST_CASE("a crew of clockwork is within its hours or is not, and no time is enough for no work only") {
    CHECK(days::chance_within({2.0, 0.0}, 2.0) == 1.0);
    CHECK(days::chance_within({2.0, 0.0}, 1.999) == 0.0);
    CHECK(days::expected_up_to({2.0, 0.0}, 1.5) == 1.5);
    CHECK(days::expected_up_to({2.0, 0.0}, 9.0) == 2.0);
    for (const double sd : {0.0, 0.2}) {
      CHECK(days::chance_within({2.0, sd}, 0.0) == 0.0);
      CHECK(days::chance_within({2.0, sd}, -std::numeric_limits<double>::infinity()) == 0.0);
      CHECK(days::expected_up_to({2.0, sd}, 0.0) == 0.0);
      CHECK(days::chance_within({0.0, sd}, 0.0) == 1.0);
      CHECK(days::chance_within({0.0, sd}, -0.1) == 0.0);
    }
  }
}
