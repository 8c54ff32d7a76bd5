// The search against an independent road to the same optimum (plan/referee.h).
#include "plan/referee.h"

#include <doctest/doctest.h>

#include <cmath>

#include "app/files.h"
#include "app/plan_file.h"
#include "plan/check_plan.h"
#include "plan/invented.h"
#include "plan/solve.h"
#include "support/outside.h"

namespace {

// What two sums over the same plan may differ by, and the step below which CBC no longer looks for better plans.
constexpr double rounding = 2e-5;

void agree(const plan::Instance& instance, const referee::Optimum& optimum, const plan::Effort& effort) {
  REQUIRE(optimum.proven);
  const auto answer = plan::solve(instance, effort);
  REQUIRE(answer.has_value());
  const auto verdict = plan::check_plan(instance, answer->plan);
  CHECK(verdict.broken.empty());
  CHECK(std::abs(verdict.objective - optimum.objective) <= rounding);
  CHECK(std::abs(answer->objective - optimum.objective) <= rounding);
  CHECK(answer->bound >= optimum.objective - rounding);
}

TEST_SUITE("referee") {
  TEST_CASE("a book of 50 jobs is planned as well as an integer programme over all 115,379 crew's days proves possible") {
    const auto path = outside_data("plans/S-1.json");
    if (!path) return;
    const auto content = app::read_file(*path);
    REQUIRE(content.has_value());
    const auto instance = app::read_instance(*content, "S-1");
    REQUIRE(instance.has_value());
    const auto optimum = referee::optimum(*instance);
    CHECK(optimum.sets == 115379);                          // counted once by a script of a few lines, without any of this code
    CHECK(std::abs(optimum.objective - 102.8148) <= 5e-5);  // ../data/plans/README.md: proven optimal, four decimals
    agree(*instance, optimum, {1, 1000000, {}});
  }

  TEST_CASE("books of 14 jobs, plain and with an office's rules, are planned as well as the integer programme proves possible") {
    for (std::uint64_t seed = 1; seed <= 15; ++seed) {
      CAPTURE(seed);
      for (const auto& instance : {invented::instance(seed, {14, 3, 4}), invented::ruled_instance(seed, {14, 3, 4})})
        agree(instance, referee::optimum(instance), {seed, 20000, {}});
    }
  }
}

}  // namespace
