// Lowering the bound by moving prices alone: what two crews would both take gets dearer, what nobody takes gets cheaper. For books whose
// linear programme is too large to solve. Source: Held, Wolfe & Crowder 1974 (Mathematical Programming 6:62), Polyak's step.
#pragma once
#include <functional>

#include "plan/prices.h"

namespace plan {

struct Priced {
  double bound = 0.0;  // no plan's objective is above it
  Prices prices;       // that prove it; slots carry the best margin found
};

// `from` are the prices to begin with, `objective` that of some plan. At most `rounds`, each asking every crew's day once; ends early when
// `stop` says so, with the best so far; the bound is `worst` then if not one round was finished.
[[nodiscard]] Priced move_prices(const Ground& ground, const Prices& from, double objective, double worst, int rounds,
                                 const std::function<bool()>& stop);

}  // namespace plan
