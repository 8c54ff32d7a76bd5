// A book above the size that one linear programme takes: the way by regions.
#include <doctest/doctest.h>

#include "plan/check_plan.h"
#include "plan/ground.h"
#include "plan/invented.h"
#include "plan/regions.h"
#include "plan/solve.h"

TEST_SUITE("large book") {
  TEST_CASE("a book of 900 crew days keeps every rule, twice the same, with a bound above it that is not idle") {
    const auto instance = invented::instance(5, {260, 90, 14});
    const plan::Effort effort{1, 200000, {}};
    const auto answer = plan::solve(instance, effort);
    REQUIRE(answer.has_value());
    const auto verdict = plan::check_plan(instance, answer->plan);
    CHECK(verdict.broken.empty());
    CHECK(verdict.objective == doctest::Approx(answer->objective).epsilon(1e-9));
    CHECK(answer->bound >= answer->objective);
    CHECK(answer->bound <= 1.1 * answer->objective);
    CHECK(plan::solve(instance, effort)->plan == answer->plan);
  }

  TEST_CASE("regions hold every crew's working day once") {
    const auto instance = invented::instance(5, {100, 60, 10});
    const plan::Ground ground(instance);
    std::vector<int> seen(static_cast<std::size_t>(ground.slots()), 0);
    const auto groups = plan::regions(ground, 100);
    CHECK(groups.size() > 3);
    for (const auto& group : groups)
      for (const int slot : group) ++seen[static_cast<std::size_t>(slot)];
    for (int slot = 0; slot < ground.slots(); ++slot)
      CHECK(seen[static_cast<std::size_t>(slot)] == (ground.slot_hours(slot) > 0.0 || ground.locked_in(slot).count > 0 ? 1 : 0));
  }
}
