// The office's plan with its hours: what is solved for, counted, and shown.
#pragma once
#include <map>
#include <utility>

#include "plan/effort.h"
#include "plan/office.h"
#include "plan/timetable.h"
#include "units/fault.h"

namespace plan {

struct Schedule {
  Plan plan;                                      // by task
  std::map<std::pair<int, int>, Timetable> days;  // by day and crew; crews' days with nobody to visit are not there
  double objective = 0.0;
  double bound = 0.0;  // no plan is worth more

  // The visit that a task has; nullptr: it is left out.
  [[nodiscard]] const Visit* visit(int task) const;
};

// Fault: as plan/sound.h. Deterministic as plan/solve.h.
[[nodiscard]] units::Result<Schedule> schedule(const Office& office, const Effort& effort);

}  // namespace plan
