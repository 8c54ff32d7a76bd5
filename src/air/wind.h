// Wind speed over a clipped lawn, brought to the 2 m that the reference evapotranspiration asks for.
// Source: FAO-56 (Allen et al. 1998), eq. 47.
#pragma once
#include "units/quantity.h"

namespace air {

// Speed at 2 m over speed at `height`, by the logarithmic profile. Valid from 0.5 m up; below 0.1 m the profile has no value.
[[nodiscard]] double wind_factor_to_2m(units::Metres height);

[[nodiscard]] units::MetresPerSecond wind_at_2m(units::MetresPerSecond speed, units::Metres height);

// What FAO-56 (chapter 3, wind speed: mean over some 2000 stations) puts where no wind was measured.
inline constexpr units::MetresPerSecond wind_when_unknown{2.0};

}  // namespace air
