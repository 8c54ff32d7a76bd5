// The office's problem as the booking problem that is solved: each task on each day at its best hour, and the clock as a rule of each
// crew's day that takes off what a plan cannot have of that.
#pragma once
#include "plan/office.h"
#include "plan/timetable.h"

namespace plan {

// `office` must outlive the instance: its rule asks plan/timetable.h, and remembers the answers. Not to be used by two threads at once.
[[nodiscard]] Instance instance_of(const Office& office);

}  // namespace plan
