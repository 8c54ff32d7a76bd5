// Saturation vapour pressure as a kernel: for one number, for arrays and for lanes alike. air/humidity.h wraps it in types.
#pragma once
#include <cmath>

#include "units/lanes.h"

namespace air {

// Over liquid water, kPa, at `temp_c` within -60..60 C (FAO-56 eq. 11).
template <class R>
[[nodiscard]] R saturation_kpa(R temp_c) {
  using std::exp;
  using units::exp;
  return 0.6108 * exp(17.27 * temp_c / (temp_c + 237.3));
}

}  // namespace air
