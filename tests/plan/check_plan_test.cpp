// The referee against plans broken by hand, and figures worked out by hand.
#include "plan/check_plan.h"

#include <doctest/doctest.h>

#include <string>

namespace {

using plan::CrewDay;

// Two crews at one depot, two days of 8 h. Speed, detour and fixed time make 10 km one hour and a half.
plan::Instance two_crews() {
  plan::Instance instance;
  instance.days = 2;
  instance.max_stops = 2;
  instance.rigs_per_day = {1, 1};
  instance.worth = {0.1, 0.25, 0.6, 1.5, 0.1, 0.5};
  instance.travel = {1.0, 10.0, 0.5};
  instance.crews = {{{0, 0}, {8, 8}}, {{0, 0}, {8, 8}}};
  for (int job = 0; job < 3; ++job) {
    plan::Job one;
    one.at = {10.0 * (job == 1 ? 1 : 0), 0.0};
    one.weight = 2.0;
    one.earliest = 0;
    one.latest = 1;
    one.crews = {0, 1};
    one.hours = {2.0, 3.0};
    one.chance = {1.0, 0.5};
    instance.jobs.push_back(one);
  }
  return instance;
}

void expect_broken(const plan::Instance& instance, const plan::Plan& plan, const std::string& line) {
  const auto verdict = plan::check_plan(instance, plan);
  REQUIRE(verdict.broken.size() == 1);
  CHECK(verdict.broken.front().line() == line);
}

TEST_SUITE("check_plan") {
  TEST_CASE("a plan's worth is chance, lateness, driving and moves") {
    auto instance = two_crews();
    instance.jobs[0].promised = CrewDay{0, 1};
    instance.jobs[1].promised = CrewDay{0, 0};
    instance.jobs[2].promised = CrewDay{1, 0};
    // Job 0 with the other crew: 2 - 0.1. Job 1 a day late: 2 x 0.5 - 0.1 x 2 - 1.5. Job 2 out: - 0.6 - 0.5.
    const auto verdict = plan::check_plan(instance, {CrewDay{0, 0}, CrewDay{1, 0}, std::nullopt});
    CHECK(verdict.broken.empty());
    // Job 0 is at the depot: two fixed times. Job 1 is 10 km away: two legs of an hour and a half.
    CHECK(verdict.travel_h == doctest::Approx(1.0 + 3.0));
    CHECK(verdict.objective == doctest::Approx(1.9 + (1.0 - 0.2 - 1.5) - 1.1 - 0.25 * 4.0));
    CHECK(verdict.served == 2);
    CHECK(verdict.moved_day == 1);
    CHECK(verdict.moved_crew == 1);
    CHECK(verdict.dropped == 1);
  }

  TEST_CASE("each rule broken alone is named with what was found") {
    const plan::Plan none(3);
    auto instance = two_crews();
    expect_broken(instance, plan::Plan(2), "plan: '2': expected one entry for each of 3 jobs");
    expect_broken(instance, {CrewDay{2, 0}, {}, {}}, "job 0: 'day 2 crew 0': expected a day and a crew that exist");
    expect_broken(instance, {CrewDay{0, -1}, {}, {}}, "job 0: 'day 0 crew -1': expected a day and a crew that exist");
    instance.max_stops = 1;
    expect_broken(instance, {CrewDay{0, 0}, CrewDay{0, 0}, {}}, "crew 0 day 0: '2 stops': expected at most 1");
    instance = two_crews();
    instance.jobs[1].hours = {5.1, 3.0};
    expect_broken(instance, {{}, CrewDay{0, 0}, {}}, "crew 0 day 0: '8.100000 h': expected at most 8.000000 h");
    instance = two_crews();
    instance.jobs[2].latest = 0;
    expect_broken(instance, {{}, {}, CrewDay{1, 0}}, "job 2: 'day 1': expected a day from 0 to 0");
    instance.jobs[2].crews = {1};
    expect_broken(instance, {{}, {}, CrewDay{0, 0}}, "job 2: 'crew 0': expected a crew that may do it");
    instance.jobs[0].rig = instance.jobs[1].rig = true;
    expect_broken(instance, {CrewDay{0, 0}, CrewDay{0, 1}, {}}, "day 0: '2 rigs': expected at most 1");
    CHECK(plan::check_plan(instance, {CrewDay{0, 0}, CrewDay{0, 0}, {}}).broken.empty());
    instance.jobs[0].promised = CrewDay{0, 0};
    instance.jobs[0].locked = true;
    expect_broken(instance, none, "job 0: 'not booked': expected its locked day and crew");
    expect_broken(instance, {CrewDay{0, 1}, {}, {}}, "job 0: 'moved': expected its locked day and crew");
  }

  TEST_CASE("a locked job alone may overrun its day and needs no crew's name, two together may not") {
    auto instance = two_crews();
    for (const std::size_t job : {std::size_t{0}, std::size_t{1}}) {
      instance.jobs[job].promised = CrewDay{0, 0};
      instance.jobs[job].locked = true;
      instance.jobs[job].hours = {20.0, 20.0};
      instance.jobs[job].crews.clear();
    }
    instance.jobs[1].promised = CrewDay{0, 1};
    CHECK(plan::check_plan(instance, {CrewDay{0, 0}, CrewDay{0, 1}, {}}).broken.empty());
    instance.jobs[1].promised = CrewDay{0, 0};
    expect_broken(instance, {CrewDay{0, 0}, CrewDay{0, 0}, {}}, "crew 0 day 0: '43.500000 h': expected at most 8.000000 h");
  }
}

}  // namespace
