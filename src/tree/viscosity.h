// Viscosity of water, which every conductance of wood, root and port follows.
#pragma once
#include <cmath>
#include <numbers>

#include "units/lanes.h"

namespace tree {

// Viscosity at 20 C over viscosity at `temp_c` (0..45 C): above 1 when warmer.
// Vogel form mu = 2.414e-5 10^(247.8/(T - 140)) Pa s, T in kelvin; within 2.5 % of tables from 0 to 45 C.
template <class R>
[[nodiscard]] R fluidity(R temp_c) {
  using std::exp;
  using std::numbers::ln10;
  using units::exp;
  return exp(247.8 * ln10 / (293.15 - 140.0) - (247.8 * ln10) / (temp_c + (273.15 - 140.0)));
}

}  // namespace tree
