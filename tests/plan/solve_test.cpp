// The search as a whole: against every plan there is, and what must hold whatever the problem.
#include "plan/solve.h"

#include <doctest/doctest.h>

#include <array>

#include "plan/check_plan.h"
#include "plan/invented.h"
#include "plan/sound.h"

namespace {

constexpr double rounding = 1e-6;

plan::Effort short_effort(std::uint64_t seed = 1) { return {seed, 4000, {}}; }

plan::Answer solved(const plan::Instance& instance, const plan::Effort& effort = short_effort()) {
  auto answer = plan::solve(instance, effort);
  REQUIRE(answer.has_value());
  return *answer;
}

// Jobs that the answer serves, which must be the best of all plans and proven so.
int served_at_best(const plan::Instance& instance, double best) {
  const auto answer = solved(instance);
  const auto verdict = plan::check_plan(instance, answer.plan);
  CHECK(verdict.broken.empty());
  CHECK(verdict.objective == doctest::Approx(answer.objective).epsilon(1e-9));
  CHECK(answer.objective == doctest::Approx(best).epsilon(1e-9));
  CHECK(answer.bound >= best - rounding);
  CHECK(answer.bound <= best + rounding);
  return verdict.served;
}

TEST_SUITE("solve") {
  TEST_CASE("on 200 tiny problems the answer is the best of all plans, proven so, and the referee agrees") {
    int with_gain = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
      CAPTURE(seed);
      const auto instance = invented::instance(seed, {4 + static_cast<int>(seed % 2), 2, 2});
      if (served_at_best(instance, invented::best_objective(instance)) > 1) ++with_gain;
    }
    CHECK(with_gain > 100);
  }

  TEST_CASE("with an office's rules on top the answer is still the best of all plans, proven so") {
    int with_gain = 0, differs = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
      CAPTURE(seed);
      auto instance = invented::ruled_instance(seed, {5, 2, 2});
      const double best = invented::best_objective(instance);
      if (served_at_best(instance, best) > 1) ++with_gain;
      instance.rule = {};
      if (invented::best_objective(instance) > best + rounding) ++differs;
    }
    CHECK(with_gain > 100);
    CHECK(differs > 30);
  }

  TEST_CASE("locked jobs stay where they are") {
    int locked = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
      const auto instance = invented::instance(seed, {30, 3, 5});
      const auto answer = solved(instance);
      CHECK(plan::check_plan(instance, answer.plan).broken.empty());
      for (std::size_t job = 0; job < instance.jobs.size(); ++job)
        if (instance.jobs[job].locked) {
          ++locked;
          CHECK(answer.plan[job] == instance.jobs[job].promised);
        }
    }
    CHECK(locked > 40);
  }

  TEST_CASE("an hour more for every crew never makes the best plan worse") {
    int better = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
      auto instance = invented::instance(seed, {8, 2, 3});
      const double before = solved(instance).objective;
      for (auto& crew : instance.crews)
        for (double& hours : crew.hours) hours += 1.0;
      const double after = solved(instance).objective;
      CHECK(after >= before - rounding);
      if (after > before + rounding) ++better;
    }
    CHECK(better > 10);
  }

  TEST_CASE("a further crew never makes the best plan worse") {
    int better = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
      auto instance = invented::instance(seed, {8, 2, 3});
      const double before = solved(instance).objective;
      instance.crews.push_back({{15.0, 15.0}, std::vector<double>(3, 8.0)});
      for (auto& job : instance.jobs) job.crews.push_back(2);
      const double after = solved(instance).objective;
      CHECK(after >= before - rounding);
      if (after > before + rounding) ++better;
    }
    CHECK(better > 10);
  }

  TEST_CASE("seed and number of moves settle the answer") {
    const auto instance = invented::instance(7, {60, 4, 6});
    const plan::Effort effort{11, 200000, {}};
    const auto once = solved(instance, effort);
    const auto again = solved(instance, effort);
    CHECK(once.plan == again.plan);
    CHECK(once.bound == again.bound);
  }

  TEST_CASE("stopped at any moment, it answers with a plan that keeps every rule and a bound above it") {
    const auto instance = invented::instance(3, {60, 4, 6});
    const double best = solved(instance, {1, 100000, {}}).objective;
    for (const int calls : {0, 1, 2, 5, 20, 60, 100, 150, 200, 400, 1000}) {
      CAPTURE(calls);
      int asked = 0;
      const auto answer = solved(instance, {1, 0, [&] { return asked++ < calls ? 0.001 * asked : 1.0; }});
      CHECK(plan::check_plan(instance, answer.plan).broken.empty());
      CHECK(answer.bound >= best - rounding);
      CHECK(answer.bound >= answer.objective);
    }
  }

  TEST_CASE("no jobs, no crews or no hours make an empty plan, not an error") {
    auto instance = invented::instance(1);
    instance.jobs.clear();
    CHECK(solved(instance).objective == 0.0);
    instance = invented::instance(1);
    for (auto& job : instance.jobs) job.promised.reset(), job.locked = false, job.crews.clear();
    CHECK(solved(instance).objective == 0.0);
    instance.crews.clear();
    CHECK(solved(instance).bound == 0.0);
  }

  TEST_CASE("a problem that makes no sense is refused with the rule that it breaks") {
    auto instance = invented::instance(1);
    instance.max_stops = 5;
    const auto answer = plan::solve(instance, short_effort());
    REQUIRE_FALSE(answer.has_value());
    CHECK(answer.error().line() == "max_stops: '5': expected 1 to 4");
  }
}

}  // namespace
