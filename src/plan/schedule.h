// The office's plan with its hours: what is solved for, counted, and shown.
#pragma once
#include <map>
#include <utility>

#include "plan/effort.h"
#include "plan/office.h"
#include "plan/office_instance.h"
#include "plan/timetable.h"
#include "units/fault.h"

namespace plan {

struct Schedule {
  Plan plan;                                      // by task
  std::map<std::pair<int, int>, Timetable> days;  // by day and crew; crews' days with nobody to visit are not there
  double objective = 0.0;
  double bound = 0.0;                      // no plan is worth more
  std::shared_ptr<const KnownDays> known;  // what the search has learnt of crews' days, for a plan of nearly the same office

  // The visit that a task has; nullptr: it is left out.
  [[nodiscard]] const Visit* visit(int task) const;
};

// Fault: as plan/sound.h. Deterministic as plan/solve.h.
// `known` must be of this office.
[[nodiscard]] units::Result<Schedule> schedule(const Office& office, const Effort& effort,
                                               std::shared_ptr<KnownDays> known = std::make_shared<KnownDays>());

}  // namespace plan
