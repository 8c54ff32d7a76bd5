// One job as the plan sees it: the hours at which it may begin, day by day, by forecast, daylight, client and law.
#pragma once
#include "app/plan_book.h"
#include "app/plan_facts.h"

namespace app {

// What a task is made from.
struct TaskSource {
  const Common& common;
  const PlanFacts& facts;
  const TreeReport& report;
  PlanTask& task;  // notes are added
  const std::vector<book::Record>& crews;
  units::LocalDay first_day;
  int days;
};

// Fills begins and bars of `to`, whose promise, lock and windows stand.
void add_begins(const TaskSource& source, plan::Task& to);

// Why this task has nowhere to go, in a few words with what would relax it; asked where no crew has a day for it.
[[nodiscard]] std::string why_nowhere(const TaskSource& source, const plan::Task& task);

// The findings of the rules that hang on place, client and hour; `rules` may be all.
[[nodiscard]] std::vector<book::Finding> findings_of_place(const Common& common, const std::vector<book::Record>& rules,
                                                           const TreeReport& report, const PlanTask& task, units::LocalDay day,
                                                           double arrive_h);

}  // namespace app
