// Large-neighbourhood search: a part of the plan is taken out and solved as well as column generation can, the rest stays.
// Source: Shaw 1998 (CP98, LNCS 1520:417).
#pragma once
#include <functional>
#include <vector>

#include "plan/relaxation.h"
#include "plan/roster.h"

namespace plan {

struct Mended {
  bool better = false;     // the roster was changed
  bool exact = false;      // no better way exists while the rest stays
  bool too_large = false;  // too many columns lie within the gap to try them all: a dive was made instead
  Relaxation relaxed;      // of the part; its prices go by `jobs`
  std::vector<int> jobs;   // of the part, as indices of the whole
};

struct MendLimits {
  double batch = 0.05;  // of the dive, plan/dive.h
  bool exactly = true;  // try all columns within the gap when they are few
  std::function<bool()> stop;
};

[[nodiscard]] Mended mend(Roster& roster, const std::vector<int>& slots, const MendLimits& limits);

}  // namespace plan
