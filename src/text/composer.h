// The crew's texts: the day the evening before, and in the morning what changed since.
#pragma once
#include "text/crew_order.h"
#include "text/fit.h"
#include "text/template.h"

namespace text {

// The whole day: stops in order with their figures, holds, safety lines, whom to call. On weather beyond the owner's limit it says so first
// and gives every stop as preparation only.
[[nodiscard]] Message evening_text(const CrewOrder& order, const Templates& templates);

// What differs from what was sent, or `news` false and "Crew B Tue Jul 7: no change." Stops are the same by code, without one by name.
// Not news: odds and hours of a stop whose verdict stands and whose likely hours moved by less than an hour, ports, tanks and the age of
// the weather. Where weather has become too old, or is no longer, the whole day is said again.
[[nodiscard]] Message morning_text(const CrewOrder& sent, const CrewOrder& today, const Templates& templates);

}  // namespace text
