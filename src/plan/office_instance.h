// The office's problem as the booking problem that is solved: each task on each day at its best hour, and the clock as a rule of each
// crew's day that takes off what a plan cannot have of that.
#pragma once
#include <array>
#include <map>
#include <memory>
#include <tuple>

#include "plan/office.h"
#include "plan/timetable.h"

namespace plan {

// What crews' days were found to cost: by day, crew and tasks in rising order, -1 for none.
using KnownDays = std::map<std::tuple<int, int, std::array<int, most_stops>>, double>;

// `office` must outlive the instance: its rule asks plan/timetable.h, and remembers the answers in `known`. Not to be used by two threads
// at once.
[[nodiscard]] Instance instance_of(const Office& office, std::shared_ptr<KnownDays> known = std::make_shared<KnownDays>());

}  // namespace plan
