#include "plan/invented_office.h"

#include <algorithm>
#include <cmath>

#include "plan/dice.h"
#include "plan/invented.h"
#include "plan/office_instance.h"
#include "plan/sound.h"

namespace invented {
namespace {

plan::Begin begin(plan::Dice& dice, double arrive_h) {
  plan::Begin one{arrive_h, 2.0 + 4.0 * dice.share(), 0.0, 0.4 + 0.6 * dice.share(), {}};
  one.spent_h = 0.8 * one.on_site_h;
  constexpr int draws = 10;
  for (int draw = 0; draw < draws; ++draw) one.takes_h.push_back(one.on_site_h * (0.6 + 0.06 * draw));
  return one;
}

plan::Task task(plan::Dice& dice, OfficeSize size) {
  plan::Task task;
  task.at = {20.0 * dice.share(), 20.0 * dice.share()};
  task.worth_h = 6.0 + 20.0 * dice.share();
  task.earliest = dice.below(size.days);
  task.latest = std::min(size.days - 1, task.earliest + dice.below(size.days));
  task.least_chance = 0.5;
  task.before_h = 0.5 + 0.5 * dice.share();
  task.after_h = 0.3;
  task.hauled_l = dice.below(2) == 0 ? 0.0 : 100.0 + 400.0 * dice.share();
  for (int team = 0; team < size.teams; ++team)
    if (dice.below(5) != 0) task.teams.push_back(team);
  for (int day = 0; day < size.days; ++day) {
    auto& begins = task.begins.emplace_back();
    if (dice.below(6) != 0)
      for (double at_h = 7.0 + dice.below(2); at_h < 13.0; at_h += 1.5 + dice.share()) begins.push_back(begin(dice, at_h));
    if (dice.below(5) == 0) task.barred.push_back({day, dice.below(size.teams)});
  }
  if (dice.below(2) == 0) {
    task.promised = plan::CrewDay{task.earliest + dice.below(task.latest - task.earliest + 1), dice.below(size.teams)};
    task.promised_at_h = 8.0;
    task.keep = 3.0 * dice.share();
    task.locked = dice.below(5) == 0 && !task.begins[static_cast<std::size_t>(task.promised->day)].empty();
  }
  return task;
}

}  // namespace

plan::Office office(std::uint64_t seed, OfficeSize size) {
  plan::Dice dice(seed);
  for (;;) {
    plan::Office office;
    office.days = size.days;
    office.worth = {0.01, 1.0, 1.5, 1.5, 0.2, 2.0};
    office.travel = {1.3, 45.0, 0.1};
    office.terms = {1.0, 0.7, 0.4};
    for (int team = 0; team < size.teams; ++team) {
      plan::Team one;
      one.depot = {20.0 * dice.share(), 20.0 * dice.share()};
      one.overtime_h = dice.share();
      if (dice.below(3) != 0) one.tank_l = 300.0 + 300.0 * dice.share();
      for (int day = 0; day < size.days; ++day) {
        const bool off = dice.below(6) == 0;
        one.from_h.push_back(off ? 0.0 : 7.0);
        one.until_h.push_back(off ? 0.0 : 14.0 + 4.0 * dice.share());
        one.people.push_back(1 + dice.below(2));
        one.pumps.push_back(1 + dice.below(2));
      }
      office.teams.push_back(std::move(one));
    }
    for (int day = 0; day < size.days; ++day) office.rigs_per_day.push_back(1 + dice.below(size.teams));
    for (int count = 0; count < size.tasks; ++count) office.tasks.push_back(task(dice, size));
    // The first two stand in sight of each other.
    office.tasks[1].at = office.tasks[0].at;
    office.tasks[0].in_sight = office.tasks[1].in_sight = 0;
    if (!plan::unsound(plan::instance_of(office))) return office;
  }
}

double best_objective(const plan::Office& office) { return best_objective(plan::instance_of(office)); }

}  // namespace invented
