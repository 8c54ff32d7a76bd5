// The tree's plumbing: conductances, storage and lift that follow from its size. docs/model/tree.md eqs. (3), (9)-(12).
#pragma once
#include <numbers>

#include "tree/parameters.h"
#include "tree/power.h"
#include "tree/size.h"
#include "units/lanes.h"

namespace tree {

// Water column to pressure: rho g h, MPa per metre of height (rho 1000 kg/m3, g 9.81 m/s2).
inline constexpr double lift_mpa_per_m = 0.00981;

template <class R>
struct Plumbing {
  R root_l_h_mpa;      // soil to stem base in moist soil at 20 C
  R xylem_l_h_mpa;     // stem base to crown, no vessel lost, at 20 C
  R base_store_l_mpa;  // elastic storage at the base
  R crown_store_l_mpa;
  R lift_mpa;  // potential that the height of the crown costs
};

// Whole-plant conductance is stated per crown projection and day, and shared between root and xylem resistance.
template <class R>
[[nodiscard]] Plumbing<R> plumbing(const Hydraulics& h, const Size<R>& size, R whole_plant_mm_d_mpa, R root_share, R elastic_l_m3_mpa) {
  const R whole = whole_plant_mm_d_mpa / 24.0 * size.crown_area_m2;  // 1 mm over 1 m2 is 1 L
  const R store = elastic_l_m3_mpa * size.sapwood_m3;
  return {whole / root_share, whole / (1.0 - root_share), h.base_store_share * store, (1.0 - h.base_store_share) * store,
          lift_mpa_per_m * h.crown_height_share * size.height_m};
}

// Share of conductance left at potential `psi_mpa` (0 where positive): 2^-((-psi/P50)^shape), P50 as a magnitude.
template <class R>
[[nodiscard]] R vulnerability(R psi_mpa, R p50_mpa, int shape_halves) {
  using std::exp;
  using units::exp;
  using units::max;
  return exp(-std::numbers::ln2 * half_power(max(-psi_mpa, R(0.0)) / p50_mpa, shape_halves));
}

}  // namespace tree
