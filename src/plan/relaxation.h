// Column generation: solve the linear programme over the columns known, ask every crew's day for a better column, and go on until there is
// none. Each round proves an upper bound on every plan. docs/model/plan.md says why it is valid and gives the sources.
#pragma once
#include <functional>

#include "plan/master.h"

namespace plan {

struct Relaxation {
  double bound = 0.0;      // no plan's objective is above it
  Prices prices;           // the prices that prove it
  double value = 0.0;      // of the linear programme over the pool when it was last solved, as an objective
  bool converged = false;  // no better column exists: the bound is the linear programme's own
};

// What is true before any work: every job at its best, nobody driving more than a stop's least.
[[nodiscard]] double trivial_bound(const Ground& ground);

// Adds columns to pool and master until none is left, or `stop`. The pool must hold a column for every slot with locked jobs. `from`: what
// an earlier call found; the bound never gets worse.
[[nodiscard]] Relaxation relax(const Ground& ground, Pool& pool, Master& master, const Relaxation& from, const std::function<bool()>& stop);

// The same from nothing, then at most `rounds` of cuts (plan/cuts.h), as long as the bound is above `objective`, that of a plan. Where
// `stop_cuts` interrupts them, what was found before them stays converged.
[[nodiscard]] Relaxation relax_with_cuts(const Ground& ground, Pool& pool, Master& master, double objective, int rounds,
                                         const std::function<bool()>& stop, const std::function<bool()>& stop_cuts);

}  // namespace plan
