// The referee of plans: counts what a plan is worth and names every rule that it breaks, straight from the problem's words. It shares
// nothing with the solver but the structs, so that a slip there cannot hide here.
#pragma once
#include <vector>

#include "plan/instance.h"
#include "units/fault.h"

namespace plan {

struct Verdict {
  double objective = 0.0;
  double travel_h = 0.0;
  int served = 0;
  int moved_day = 0;                 // promised jobs booked on another day
  int moved_crew = 0;                // promised jobs booked on their day with another crew
  int dropped = 0;                   // promised jobs left out
  std::vector<units::Fault> broken;  // empty: the plan keeps every rule
};

// The figures mean something only where nothing is broken. The instance must be sound (plan/sound.h).
[[nodiscard]] Verdict check_plan(const Instance& instance, const Plan& plan);

}  // namespace plan
