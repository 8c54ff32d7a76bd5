// Air pressure brought from sea level to a site, for services that give only the reduced one.
#pragma once
#include "units/quantity.h"

namespace feeds {

// The pressure at `elevation` under a given sea-level pressure: Allen et al. (1998), FAO Irrigation and Drainage Paper 56, eq. 7,
// with the measured sea-level pressure in place of the standard 101.3 kPa. Elevation -430..9000 m.
[[nodiscard]] units::Kilopascals station_pressure(units::Kilopascals at_sea_level, units::Metres elevation);

}  // namespace feeds
