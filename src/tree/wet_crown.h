// Water on the leaves: filled by rain and dew, dried by evaporation; the wet share of a crown does not transpire.
// Rutter et al. 1971 with the drying rate of a wet crown taken from the hour's reference evaporation. docs/model/tree.md (8).
#pragma once
#include "tree/parameters.h"
#include "units/lanes.h"

namespace tree {

// One hour: `water_mm` at its start becomes `water_mm` at its end; returns the wet share (0..1) over the hour.
// `reference_mm` is the hour's reference evapotranspiration; below zero it is dew. Evaporation is in proportion to the wet share,
// solved implicitly so that a long hour cannot take more than there is.
template <class R>
[[nodiscard]] R wet_hour(const WetCrown& p, R lai, R rain_mm, double reference_mm, R& water_mm) {
  using units::max;
  using units::min;
  const R capacity = max(p.store_mm_per_lai * lai, R(1e-6));
  const R dew = R(max(-reference_mm, 0.0));
  const R drying = p.drying_factor * R(max(reference_mm, 0.0));
  const R wetted = min(capacity, water_mm + rain_mm + dew);
  water_mm = wetted / (1.0 + drying / capacity);
  return 0.5 * (wetted + water_mm) / capacity;
}

}  // namespace tree
