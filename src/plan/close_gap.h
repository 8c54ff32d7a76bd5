// Between a plan and the bound: only columns priced within the gap can be part of a better plan. When they are few, all are tried.
#pragma once
#include "plan/choose.h"
#include "plan/relaxation.h"

namespace plan {

struct GapLimits {
  double objective = 0.0;   // of the plan that is to be beaten
  std::size_t most = 0;     // columns
  std::uint64_t steps = 0;  // of pricing, a slot
  int nodes = 0;            // of branch and cut; 0: no limit
  std::function<bool()> stop;
};

// None: too many columns to try, or `stop`. Otherwise a better plan if there is one, and what is now known as bound: both hold for the
// whole problem, not only for the columns tried. `relaxed` must have prices.
[[nodiscard]] std::optional<Chosen> close_gap(const Ground& ground, const Relaxation& relaxed, const GapLimits& limits);

}  // namespace plan
