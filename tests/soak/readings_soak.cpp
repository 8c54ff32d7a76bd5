// The long form of the trial of readings in tests/days: `cmake --build --preset check --target soak-readings && build/release/soak-readings`.
#include <doctest/doctest.h>

#include <cstdlib>

#include "days/reading_trial.h"

TEST_SUITE("soak") {
  TEST_CASE("p10 to p90 of the finish holds four jobs in five before and after every reading") {
    auto result = reading_trial::readings(0, std::getenv("J") ? std::stoul(std::getenv("J")) : 1000, 4, std::getenv("D") ? std::stoul(std::getenv("D")) : 4096);
    for (std::size_t i = 0; i < result.size(); ++i) {
      auto& after = result[i];
      MESSAGE(i << " readings: p10 to p90 holds " << 100 * after.coverage() << " % of " << after.jobs << " jobs, below it "
                << 100 * after.below / after.jobs << " %, median p90/p10 " << reading_trial::median(after.widths) << ", " << reading_trial::median(after.widths_on_work_days) << " of " << after.widths_on_work_days.size() << " jobs on working days" << ", odd " << 100 * after.odd / after.jobs
                << " %, tempered " << 100 * after.tempered / after.jobs << " %, fewest draws " << after.least);
      CHECK(after.coverage() == doctest::Approx(0.8).epsilon(0.025));
    }
    CHECK(reading_trial::median(result[2].widths_on_work_days) <= 1.6);
  }
}
