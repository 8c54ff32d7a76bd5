#include "air/wind.h"

#include <cmath>

namespace air {

double wind_factor_to_2m(units::Metres height) { return 4.87 / std::log(67.8 * height.value - 5.42); }

units::MetresPerSecond wind_at_2m(units::MetresPerSecond speed, units::Metres height) { return speed * wind_factor_to_2m(height); }

}  // namespace air
