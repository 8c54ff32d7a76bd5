#include "feeds/sea_level.h"

#include <cmath>

namespace feeds {

units::Kilopascals station_pressure(units::Kilopascals at_sea_level, units::Metres elevation) {
  return at_sea_level * std::pow((293.0 - 0.0065 * elevation.value) / 293.0, 5.26);
}

}  // namespace feeds
