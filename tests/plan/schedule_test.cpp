// The office's plan with its hours: against every plan there is, against the referee, and what must hold whatever the office.
#include "plan/schedule.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>

#include "plan/check_schedule.h"
#include "plan/invented_office.h"
#include "plan/refusal.h"

namespace {

constexpr double rounding = 1e-6;

plan::Effort short_effort() { return {1, 4000, {}}; }

plan::Schedule scheduled(const plan::Office& office) {
  auto found = plan::schedule(office, short_effort());
  REQUIRE(found.has_value());
  return *found;
}

// One crew from 7 to 17, one tree after another at one place, nothing else.
plan::Office one_crew() {
  plan::Office office;
  office.days = 1;
  office.rigs_per_day = {1};
  office.worth = {0.0, 1.0, 1.5, 1.5, 0.2, 2.0};
  office.travel = {1.0, 60.0, 0.0};
  office.terms = {1.0, 0.5, 0.4};
  plan::Team team;
  team.from_h = {7.0};
  team.until_h = {17.0};
  team.people = {1};
  team.pumps = {1};
  office.teams = {team};
  return office;
}

plan::Task tree(std::vector<plan::Begin> begins) {
  plan::Task task;
  task.worth_h = 20.0;
  task.teams = {0};
  task.before_h = 1.0;
  task.after_h = 0.5;
  task.begins = {std::move(begins)};
  return task;
}

}  // namespace

TEST_SUITE("schedule") {
  TEST_CASE("on 200 small offices the plan is the best of all, proven so, and the referee finds nothing") {
    int beside = 0, overtime = 0, refills = 0, several = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
      CAPTURE(seed);
      const auto office = invented::office(seed);
      const auto found = scheduled(office);
      const double best = invented::best_objective(office);
      CHECK(found.objective == doctest::Approx(best).epsilon(1e-9));
      CHECK(found.bound <= best + rounding);
      CHECK(found.bound >= best - rounding);
      const auto broken = plan::broken_rules(office, found);
      CHECK_MESSAGE(broken.empty(), (broken.empty() ? std::string{} : broken.front().line()));
      for (const auto& [when, day] : found.days) {
        several += day.visits.size() > 1 ? 1 : 0;
        overtime += day.overtime_h > 0.1 ? 1 : 0;
        refills += day.refills;
        for (const auto& visit : day.visits) beside += visit.beside ? 1 : 0;
      }
    }
    // The offices are such that the rules matter.
    CHECK(several > 30);
    CHECK(beside > 3);
    CHECK(overtime > 3);
    CHECK(refills > 3);
  }

  TEST_CASE("two trees are done one after the other at the hours that lose least") {
    auto office = one_crew();
    office.tasks = {tree({{7.0, 4.0, 4.0, 0.9}, {12.0, 4.0, 4.0, 0.8}}), tree({{7.0, 5.0, 5.0, 0.9}, {12.0, 5.0, 5.0, 0.6}})};
    // 7 to 12 and 12 to 16 loses 20 (0.9 - 0.8); the other order 20 (0.9 - 0.6).
    const std::array<int, 2> both{0, 1};
    const auto day = plan::timetable(office, {0, 0}, both);
    REQUIRE(day.has_value());
    CHECK(day->visits.front().task == 1);
    CHECK(day->visits.back().arrive_h == 12.0);
    CHECK(day->cost == doctest::Approx(2.0));
  }

  TEST_CASE("driving must fit between two trees") {
    auto office = one_crew();
    office.tasks = {tree({{7.0, 5.0, 5.0, 0.9}}), tree({{12.0, 4.0, 4.0, 0.9}})};
    const std::array<int, 2> both{0, 1};
    CHECK(plan::timetable(office, {0, 0}, both).has_value());
    office.tasks[1].at = {1.0, 0.0};
    CHECK_FALSE(plan::timetable(office, {0, 0}, both).has_value());
  }

  TEST_CASE("trees in sight of each other may drink side by side where there are pumps, never else") {
    auto office = one_crew();
    office.tasks = {tree({{7.0, 8.0, 6.0, 0.9}}), tree({{8.0, 8.0, 6.0, 0.9}})};
    const std::array<int, 2> both{0, 1};
    CHECK_FALSE(plan::timetable(office, {0, 0}, both).has_value());
    office.tasks[0].in_sight = office.tasks[1].in_sight = 0;
    CHECK_FALSE(plan::timetable(office, {0, 0}, both).has_value());
    office.teams[0].pumps = {2};
    const auto day = plan::timetable(office, {0, 0}, both);
    REQUIRE(day.has_value());
    CHECK(day->visits[1].beside);
    // The second cannot begin before the first is set up.
    office.tasks[0].before_h = 1.5;
    CHECK_FALSE(plan::timetable(office, {0, 0}, both).has_value());
  }

  TEST_CASE("a crew that must leave earlier keeps less time, with the chance that this leaves") {
    plan::Begin begin{7.0, 9.0, 8.0, 0.9, {6.0, 7.0, 8.0, 9.0, 10.0}};
    CHECK(plan::until(begin, 17.0).chance == 0.9);
    CHECK(plan::until(begin, 15.0).on_site_h == doctest::Approx(8.0));
    CHECK(plan::until(begin, 15.0).chance == doctest::Approx(0.6));
    auto office = one_crew();
    office.teams[0].until_h = {15.0};
    office.tasks = {tree({begin})};
    office.tasks[0].least_chance = 0.65;
    const std::array<int, 1> it{0};
    CHECK_FALSE(plan::timetable(office, {0, 0}, it).has_value());
    office.teams[0].overtime_h = 1.0;
    CHECK(plan::timetable(office, {0, 0}, it)->overtime_h == doctest::Approx(1.0));
  }

  TEST_CASE("a further tree never makes a crew's day cheaper, and no day costs less than nothing") {
    int compared = 0;
    for (std::uint64_t seed = 1; seed <= 120; ++seed) {
      CAPTURE(seed);
      auto office = invented::office(seed);
      // Trees worth so little that the crew would rather leave early, and crews whose pumps suffice for three at once.
      for (std::size_t i = 0; i < office.tasks.size(); ++i)
        if ((seed + i) % 3 == 0) office.tasks[i].worth_h *= 0.02;
      if (seed % 2 == 0)
        for (auto& team : office.teams) std::ranges::fill(team.pumps, 3);
      const int tasks = static_cast<int>(office.tasks.size());
      for (int day = 0; day < office.days; ++day)
        for (int crew = 0; crew < static_cast<int>(office.teams.size()); ++crew)
          for (unsigned chosen = 1; chosen < (1U << static_cast<unsigned>(tasks)); ++chosen) {
            std::vector<int> some;
            for (int task = 0; task < tasks; ++task)
              if ((chosen >> static_cast<unsigned>(task)) & 1U) some.push_back(task);
            if (some.size() > 3) continue;
            const auto all = plan::timetable(office, {day, crew}, some);
            if (!all) continue;
            CHECK(all->cost >= 0.0);
            for (std::size_t left_out = 0; some.size() > 1 && left_out < some.size(); ++left_out) {
              auto fewer = some;
              fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(left_out));
              const auto without = plan::timetable(office, {day, crew}, fewer);
              REQUIRE(without.has_value());
              CHECK(without->cost <= all->cost + rounding);
              ++compared;
            }
          }
    }
    CHECK(compared > 300);
  }

  TEST_CASE("what it costs to begin on a day is not saved by leaving early") {
    plan::Begin tomorrow{7.0, 8.0, 6.0, 0.9, {5.0, 6.0, 7.0, 8.0}};
    tomorrow.toll_h = 3.0;
    const plan::Task task = tree({tomorrow});
    CHECK(plan::worth_of(task, tomorrow) == doctest::Approx(20.0 * 0.9 - 6.0 - 3.0));
    CHECK(plan::worth_of(task, plan::until(tomorrow, 12.0)) == doctest::Approx(20.0 * 0.25 - 5.0 - 3.0));
  }

  TEST_CASE("water that the truck cannot hold is fetched on the way, and for one tree only by a second person") {
    auto office = one_crew();
    office.teams[0].tank_l = 500.0;
    office.tasks = {tree({{7.0, 4.0, 4.0, 0.9}}), tree({{12.0, 4.0, 4.0, 0.9}})};
    office.tasks[0].hauled_l = office.tasks[1].hauled_l = 300.0;
    const std::array<int, 2> both{0, 1};
    CHECK(plan::timetable(office, {0, 0}, both)->refills == 1);
    const std::array<int, 1> first{0};
    CHECK(plan::timetable(office, {0, 0}, first)->refills == 0);
    office.tasks[0].hauled_l = 600.0;
    CHECK_FALSE(plan::timetable(office, {0, 0}, first).has_value());
    office.teams[0].people = {2};
    CHECK(plan::timetable(office, {0, 0}, first)->refills == 1);
  }

  TEST_CASE("nothing locked moves, and refusing every move gives back the old plan") {
    int locked = 0, moved = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
      CAPTURE(seed);
      auto office = invented::office(seed, {8, 3, 3});
      const auto found = scheduled(office);
      for (std::size_t i = 0; i < office.tasks.size(); ++i) {
        plan::Task& task = office.tasks[i];
        if (task.locked) CHECK(found.plan[i] == task.promised);
        locked += task.locked ? 1 : 0;
        if (!task.promised || task.locked || found.plan[i] == task.promised) continue;
        ++moved;
        const auto refusal = plan::refusal(office, found, static_cast<int>(i), short_effort());
        if (!refusal) continue;
        CHECK(refusal->schedule.plan[i] == task.promised);
        CHECK(refusal->cost_h >= 0.0);
        CHECK(refusal->schedule.objective <= found.objective + rounding);
      }
    }
    CHECK(locked > 20);
    CHECK(moved > 40);
  }

  TEST_CASE("an hour more, a rig more or a pump more never lowers the best plan") {
    int better = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
      CAPTURE(seed);
      auto office = invented::office(seed);
      const double before = scheduled(office).objective;
      auto longer = office;
      for (auto& team : longer.teams)
        for (std::size_t day = 0; day < team.until_h.size(); ++day) team.until_h[day] += team.until_h[day] > 0.0 ? 1.0 : 0.0;
      auto rigs = office;
      for (int& count : rigs.rigs_per_day) ++count;
      auto pumps = office;
      for (auto& team : pumps.teams)
        for (int& count : team.pumps) ++count;
      for (const auto& richer : {longer, rigs, pumps}) {
        const double after = scheduled(richer).objective;
        CHECK(after >= before - rounding);
        if (after > before + rounding) ++better;
      }
    }
    CHECK(better > 20);
  }

  TEST_CASE("under random what-ifs no hard rule is broken, and no move lands on a day that its rules forbid") {
    int planned = 0;
    for (std::uint64_t seed = 1; seed <= 150; ++seed) {
      CAPTURE(seed);
      auto office = invented::office(seed, {10, 3, 4});
      const auto crew = static_cast<std::size_t>(seed % 3), day = static_cast<std::size_t>(seed % 4);
      if (seed % 2 == 0) office.teams[crew].from_h[day] = office.teams[crew].until_h[day] = 0.0;
      if (seed % 5 == 0 && office.rigs_per_day[day] > 1) --office.rigs_per_day[day];
      for (auto& task : office.tasks)
        if (task.promised && !task.locked && seed % 7 == 0) task.barred.push_back(*task.promised);
      auto found = plan::schedule(office, short_effort());
      if (!found) continue;  // a locked job on a day that the what-if takes away
      ++planned;
      const auto broken = plan::broken_rules(office, *found);
      CHECK_MESSAGE(broken.empty(), (broken.empty() ? std::string{} : broken.front().line()));
      for (std::size_t i = 0; i < office.tasks.size(); ++i) {
        const auto& task = office.tasks[i];
        if (!found->plan[i] || task.locked) continue;
        CHECK(std::ranges::find(task.barred, *found->plan[i]) == task.barred.end());
        CHECK_FALSE(task.begins[static_cast<std::size_t>(found->plan[i]->day)].empty());
      }
    }
    CHECK(planned > 100);
  }

  TEST_CASE("the referee sees each rule broken") {
    auto office = one_crew();
    office.tasks = {tree({{7.0, 4.0, 4.0, 0.9, {3.0, 4.0, 5.0}}}), tree({{12.0, 4.0, 4.0, 0.9, {3.0, 4.0, 5.0}}})};
    const auto good = scheduled(office);
    REQUIRE(good.plan[0].has_value());
    REQUIRE(good.plan[1].has_value());
    CHECK(plan::broken_rules(office, good).empty());
    const auto said = [](const plan::Office& of, const plan::Schedule& schedule) {
      const auto broken = plan::broken_rules(of, schedule);
      return broken.empty() ? std::string{} : broken.front().line();
    };
    auto bad = good;
    bad.days.at({0, 0}).visits[1].arrive_h = 10.5;
    CHECK(said(office, bad).find("one after the other") != std::string::npos);
    bad = good;
    bad.days.at({0, 0}).visits[1].leave_h = 17.5;
    CHECK(said(office, bad).find("off site by 17:00") != std::string::npos);
    bad = good;
    bad.plan[1].reset();
    CHECK(said(office, bad).find("where it is booked") != std::string::npos);
    auto barred = office;
    barred.tasks[0].barred = {{0, 0}};
    CHECK(said(barred, good).find("no rule forbids") != std::string::npos);
    auto late = office;
    late.tasks[0].earliest = late.tasks[0].latest = 1;
    CHECK(said(late, good).find("a day that suits") != std::string::npos);
    auto dry = office;
    dry.teams[0].tank_l = 100.0;
    dry.tasks[0].hauled_l = 200.0;
    CHECK(said(dry, good).find("second person") != std::string::npos);
    auto other = office;
    other.tasks[0].teams.clear();
    CHECK(said(other, good).find("a crew that may do it") != std::string::npos);
    auto locked = office;
    locked.tasks[0].locked = true;
    locked.tasks[0].promised = plan::CrewDay{0, 1};
    CHECK(said(locked, good).find("locked") != std::string::npos);
    auto no_rig = office;
    no_rig.rigs_per_day = {0};
    CHECK(said(no_rig, good).find("rigs") != std::string::npos);
    auto hours = office;
    hours.tasks[0].begins[0][0].arrive_h = 8.0;
    CHECK(said(hours, good).find("an hour at which it may begin") != std::string::npos);
  }

  TEST_CASE("a move that needs another's room says so") {
    auto office = one_crew();
    office.days = 2;
    office.rigs_per_day = {1, 1};
    office.teams[0].from_h = {7.0, 7.0};
    office.teams[0].until_h = {17.0, 17.0};
    office.teams[0].people = office.teams[0].pumps = {1, 1};
    // Each fills a day; the first's day is spoilt, the second would do as well on either.
    plan::Task spoilt = tree({}), easy = tree({{7.0, 8.0, 8.0, 0.9}});
    spoilt.begins = {{}, {{7.0, 8.0, 8.0, 0.9}}};
    easy.begins = {{{7.0, 8.0, 8.0, 0.9}}, {{7.0, 8.0, 8.0, 0.9}}};
    spoilt.latest = easy.latest = 1;
    spoilt.worth_h = easy.worth_h = 40.0;
    spoilt.promised = plan::CrewDay{0, 0};
    easy.promised = plan::CrewDay{1, 0};
    office.tasks = {spoilt, easy};
    const auto found = scheduled(office);
    CHECK(found.plan[0] == plan::CrewDay{1, 0});
    CHECK(found.plan[1] == plan::CrewDay{0, 0});
    CHECK(plan::moves_needed(office, found, 0) == std::vector<int>{1});
    CHECK(plan::moves_needed(office, found, 1).empty() == false);
    CHECK_FALSE(plan::refusal(office, found, 0, short_effort()).has_value());
    CHECK(plan::refusal(office, found, 1, short_effort())->cost_h > 10.0);
  }
}
