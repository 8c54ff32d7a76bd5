// A place on the earth.
#pragma once
#include "units/quantity.h"

namespace units {

struct Site {
  Degrees latitude;   // -90..90, north positive
  Degrees longitude;  // -180..180, east positive
  Metres elevation;   // above sea level, -430..9000
};

// Great-circle distance (haversine on a sphere of 6371.0088 km, the IUGG mean radius).
[[nodiscard]] Metres distance(const Site& a, const Site& b);

}  // namespace units
