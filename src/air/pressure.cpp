#include "air/pressure.h"

#include <cmath>

namespace air {

units::Kilopascals pressure_at(units::Metres elevation) {
  return units::Kilopascals{101.3 * std::pow((293.0 - 0.0065 * elevation.value) / 293.0, 5.26)};
}

units::KilopascalsPerKelvin psychrometric_constant(units::Kilopascals pressure) {
  return units::KilopascalsPerKelvin{0.665e-3 * pressure.value};
}

}  // namespace air
