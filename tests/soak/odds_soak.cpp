// The long form of the trials of the odds in tests/days: `cmake --build --preset check --target soak-odds && build/release/soak-odds`.
#include <doctest/doctest.h>

#include "days/trial.h"

TEST_SUITE("soak") {
  TEST_CASE("the chance is that of 20,000 plain draws within what is stated") {
    for (const std::size_t draws : {256u, 512u, 1024u}) {
      const auto c = trial::convergence(0, 40, 2500, draws);
      MESSAGE(draws << " draws, 40 cases, points: error " << 100 * c.error << ", stated " << 100 * c.stated << ", change when doubled "
                    << 100 * c.doubling << " (rms) " << 100 * c.largest_doubling << " (largest), of the truth " << 100 * c.truth_error);
      CHECK(c.stated > c.error);
      CHECK(c.stated < 3.0 * c.error);
    }
  }

  TEST_CASE("what is given a chance of so much happens as often, and p10 to p90 holds four worlds in five") {
    const auto c = trial::calibration(1000, 300, 50);
    for (const auto& bin : c.bins) {
      MESSAGE("chance " << bin.chance / bin.worlds << ": " << bin.in_time / bin.worlds << " of " << bin.worlds << " worlds, "
                        << bin.deviation() << " sd");
    }
    MESSAGE("p10 to p90 holds " << c.coverage() << " of " << c.ranged);
    CHECK(c.coverage() == doctest::Approx(0.8).epsilon(0.0125));
  }
}
