// What is refused before any search begins.
#include "plan/sound.h"

#include <doctest/doctest.h>

#include <limits>
#include <string>

#include "plan/invented.h"

namespace {

plan::Instance sound_one() {
  auto instance = invented::instance(1, {3, 2, 2});
  for (auto& job : instance.jobs) job.locked = false, job.promised.reset(), job.earliest = 0, job.latest = 1;
  instance.rigs_per_day = {1, 1};
  return instance;
}

template <class Change>
std::string refusal(Change change) {
  auto instance = sound_one();
  change(instance);
  const auto fault = plan::unsound(instance);
  return fault ? fault->line() : "";
}

void lock(plan::Job& job, int day, int crew) {
  job.promised = plan::CrewDay{day, crew};
  job.locked = true;
}

TEST_SUITE("sound") {
  TEST_CASE("a sound problem passes") { CHECK_FALSE(plan::unsound(sound_one())); }

  TEST_CASE("counts that do not match and numbers out of range are named") {
    CHECK(refusal([](auto& i) { i.days = 0; }) == "days: '0': expected 1 to 400");
    CHECK(refusal([](auto& i) { i.rigs_per_day.pop_back(); }) == "rigs_per_day: '1 entries': expected one for each day");
    CHECK(refusal([](auto& i) { i.rigs_per_day[1] = -1; }) == "rigs_per_day: expected no negative number");
    CHECK(refusal([](auto& i) { i.worth.drop = -1; }) == "objective: '-1.000000': expected a number from 0 to 1e9");
    CHECK(refusal([](auto& i) { i.travel.speed_km_h = 0; }) == "travel.speed_km_h: '0.000000': expected a number above 0");
    CHECK(refusal([](auto& i) { i.travel.detour = 0; }) == "travel.detour: '0.000000': expected a number above 0");
    CHECK(refusal([](auto& i) { i.travel.stop_h = std::numeric_limits<double>::quiet_NaN(); }) ==
          "travel.stop_h: 'nan': expected 0 or more");
    CHECK(refusal([](auto& i) { i.crews[1].hours.push_back(1); }) == "crew 1: hours: '3 entries': expected one for each day");
    CHECK(refusal([](auto& i) { i.crews[0].depot.x_km = std::numeric_limits<double>::quiet_NaN(); }) ==
          "crew 0: expected a place within 1e5 km");
    CHECK(refusal([](auto& i) { i.jobs[2].weight = -1; }) == "job 2: weight: '-1.000000': expected 0 or more");
    CHECK(refusal([](auto& i) { i.jobs[2].hours.clear(); }) == "job 2: hours: '0 entries': expected one for each day");
    CHECK(refusal([](auto& i) { i.jobs[0].chance[1] = 1.5; }) == "job 0: chance: '1.500000': expected a number from 0.000000 to 1.000000");
    CHECK(refusal([](auto& i) { i.jobs[0].crews = {2}; }) == "job 0: crews: expected crews that exist");
    CHECK(refusal([](auto& i) { i.jobs[0].latest = 2000000000; }) == "job 0: window: expected days within 1e6");
    CHECK(refusal([](auto& i) { i.jobs[0].promised = plan::CrewDay{0, 9}; }) == "job 0: promised: expected a day and a crew that exist");
  }

  TEST_CASE("locked jobs that no plan can keep are named with the rule") {
    CHECK(refusal([](auto& i) { i.jobs[0].locked = true; }) == "job 0: locked: expected a promised day and crew");
    CHECK(refusal([](auto& i) { lock(i.jobs[0], 1, 0), i.jobs[0].latest = 0; }) == "job 0: locked: 'day 1': expected a day from 0 to 0");
    CHECK(refusal([](auto& i) {
            for (auto& job : i.jobs) lock(job, 0, 0), job.hours = {0.1, 0.1}, job.at = i.crews[0].depot;
            i.crews[0].hours = {9, 9};
            i.max_stops = 2;
          }) == "crew 0 day 0: locked jobs: '3 stops': expected at most 2");
    CHECK(refusal([](auto& i) {
            for (auto& job : i.jobs) job.rig = true;
            lock(i.jobs[0], 0, 0), lock(i.jobs[1], 0, 1);
          }) == "day 0: locked jobs: '2 rigs': expected at most 1");
    CHECK(refusal([](auto& i) { lock(i.jobs[0], 0, 0), i.jobs[0].hours = {30, 30}; }).empty());
  }
}

}  // namespace
