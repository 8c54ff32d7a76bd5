// Short forms of the trials of tests/soak/odds_soak.cpp.
#include "days/trial.h"

#include <doctest/doctest.h>

#include "support/within.h"

TEST_SUITE("days") {
  TEST_CASE("what is given a chance of so much happens as often in worlds drawn by themselves") {
    const auto c = trial::calibration(1000, 60, 10);
    for (const auto& bin : c.bins) {
      if (bin.worlds > 0.0) MESSAGE("chance " << bin.chance / bin.worlds << ": " << bin.in_time / bin.worlds << " of " << bin.worlds);
      CHECK(std::abs(bin.deviation()) < 3.0);
    }
    MESSAGE("p10 to p90 holds " << c.coverage() << " of " << c.ranged << " worlds");
    CHECK(c.coverage() == within(0.8, 0.02));
  }

  TEST_CASE("a small number of draws does not make p10 to p90 too narrow") {
    // 32 draws read at the shares of n - 1 intervals would hold 0.75. They hold 0.82 here: answers without an upper end are left out, and
    // with few draws more of the slow ones have none.
    CHECK(trial::calibration(1000, 300, 5, 32).coverage() == within(0.8, 0.02));
  }

  TEST_CASE("the stated sampling error is neither below the true one nor three times above it") {
    const auto c = trial::convergence(0, 24, 250);
    MESSAGE("chance, points: error " << 100 * c.error << ", stated " << 100 * c.stated << ", change when doubled " << 100 * c.doubling
                                     << " (rms) " << 100 * c.largest_doubling << " (largest)");
    CHECK(c.stated > 0.9 * c.error);  // over 24 cases the true error is known to a seventh
    CHECK(c.stated < 3.0 * c.error);
    CHECK(c.doubling < 0.015);
  }
}
