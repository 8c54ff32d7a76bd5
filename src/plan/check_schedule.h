// The referee of schedules: reads the office's words and the hours of every visit, and names every hard rule that is broken. It shares no
// code with the search.
#pragma once
#include <vector>

#include "plan/schedule.h"

namespace plan {

// Nothing: every hard rule is kept. Counted: days and crews of tasks, locks, bars, begins that exist, drives between sites, hours and
// overtime, lines attended, pumps, water, stops a day, rigs a day.
[[nodiscard]] std::vector<units::Fault> broken_rules(const Office& office, const Schedule& schedule);

}  // namespace plan
