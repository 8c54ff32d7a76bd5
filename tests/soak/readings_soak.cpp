// The long form of the trial of readings in tests/days: `cmake --build --preset check --target soak-readings &&
// build/release/soak-readings`.
#include <doctest/doctest.h>

#include "days/reading_trial.h"
#include "support/within.h"

TEST_SUITE("soak") {
  TEST_CASE("p10 to p90 of the finish holds four jobs in five before and after every reading") {
    const auto result = reading_trial::readings(0, 1000, 4, 4096);
    for (std::size_t i = 0; i < result.size(); ++i) {
      const auto& after = result[i];
      MESSAGE(i << " readings: p10 to p90 holds " << 100 * after.coverage() << " % of " << after.jobs << " jobs, below it "
                << 100 * after.below / after.jobs << " %, median p90/p10 " << reading_trial::median(after.widths) << ", "
                << reading_trial::median(after.widths_on_work_days) << " of " << after.widths_on_work_days.size()
                << " jobs with odds at the opening, odd " << 100 * after.odd / after.jobs << " %, tempered "
                << 100 * after.tempered / after.jobs << " %, fewest draws " << after.least);
      CHECK(after.coverage() == within(0.8, 0.02));
      CHECK(after.odd <= 0.015 * after.jobs);
    }
    CHECK(reading_trial::median(result[2].widths) <= 1.6);
  }
}
