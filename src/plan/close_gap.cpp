#include "plan/close_gap.h"

#include <algorithm>

#include "plan/pricing.h"

namespace plan {

std::optional<Chosen> close_gap(const Ground& ground, const Relaxation& relaxed, const GapLimits& limits) {
  // A column left out is worth so much less than its price that any plan with it stays below the one we have.
  constexpr double rounding = 1e-6;
  const double gap = relaxed.bound - limits.objective + rounding;
  std::vector<Column> columns;
  for (int slot = 0; slot < ground.slots(); ++slot) {
    const double price = relaxed.prices.slot[static_cast<std::size_t>(slot)];
    const auto offers = price_slot(ground, slot, relaxed.prices, {price - gap, limits.most, limits.steps, true});
    for (const auto& offer : offers.best) columns.push_back(offer.column);
    if (!offers.complete || columns.size() >= limits.most || (limits.stop && limits.stop())) return std::nullopt;
  }
  auto chosen = choose(ground, columns, {limits.objective, limits.nodes, limits.stop});
  chosen.bound = std::min(relaxed.bound, std::max(chosen.bound, limits.objective));
  return chosen;
}

}  // namespace plan
