// Heat that the reference surface radiates to the sky, as a kernel: for one hour and for lanes of hours. air/net_radiation.h wraps it
// in types and states what is held to what.
// Source: FAO-56 (Allen et al. 1998), eq. 39.
#pragma once
#include <cmath>

#include "units/lanes.h"

namespace air {

// Net emissivity of the clear sky.
template <class R>
[[nodiscard]] SAPDRAW_INLINE R sky_emissivity(R vapour_kpa) {
  using std::sqrt;
  using units::max;
  using units::sqrt;
  return max(R(0.0), 0.34 - 0.14 * sqrt(vapour_kpa));
}

// How much of it clouds leave.
template <class R>
[[nodiscard]] SAPDRAW_INLINE R cloud_opening(R relative_shortwave) {
  using units::max;
  using units::min;
  return 1.35 * min(max(relative_shortwave, R(0.3)), R(1.0)) - 0.35;
}

// Fourth power of the absolute temperature.
template <class R>
[[nodiscard]] SAPDRAW_INLINE R kelvin_to_the_fourth(R temp_c) {
  const R kelvin = temp_c + 273.16, squared = kelvin * kelvin;
  return squared * squared;
}

}  // namespace air
