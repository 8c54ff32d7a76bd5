// Is a booking problem sound, and can its locked jobs be kept at all? Everything else in this folder relies on the answer.
#pragma once
#include <optional>

#include "plan/instance.h"
#include "units/fault.h"

namespace plan {

// The first thing that makes the problem meaningless (a count that does not match, a number that is not finite or out of its range, a crew
// that does not exist) or impossible (locked jobs that overfill their crew's day, take too many rigs, or lie outside their own window).
// None: some plan keeps every rule.
[[nodiscard]] std::optional<units::Fault> unsound(const Instance& instance);

}  // namespace plan
