// Books and rebooks: the best plan to be had for the effort, with a bound that says how much better any plan could be.
#pragma once
#include "plan/effort.h"
#include "plan/instance.h"
#include "units/fault.h"

namespace plan {

struct Answer {
  Plan plan;               // keeps every rule
  double objective = 0.0;  // as plan/check_plan.h counts it
  double bound = 0.0;      // no plan is worth more; equal to `objective` where the plan is proven best
};

// Starts from the promises as far as they can still be kept, and never does worse. Fault: an instance that plan/sound.h refuses.
// However little is allowed, the answer is a plan that keeps every rule.
[[nodiscard]] units::Result<Answer> solve(const Instance& instance, const Effort& effort);

}  // namespace plan
