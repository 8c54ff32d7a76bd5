#include "air/shortwave.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace air {

using units::Fraction;
using units::MegajoulesPerSquareMetre;
using units::Millimetres;
using units::Radians;

MegajoulesPerSquareMetre clear_sky(MegajoulesPerSquareMetre extraterrestrial, units::Metres elevation) {
  return extraterrestrial * (0.75 + 2e-5 * elevation.value);
}

MegajoulesPerSquareMetre from_sunshine(MegajoulesPerSquareMetre extraterrestrial, Fraction of_day_length, Angstrom coefficients) {
  return extraterrestrial * (coefficients.a + coefficients.b * of_day_length.value);
}

Fraction cloud_at_transmission(Fraction transmission) {
  return Fraction{std::pow((1.0 - std::clamp(transmission.value, 0.25, 1.0)) / 0.75, 1.0 / 3.4)};
}

Fraction diffuse_share(Fraction cloud) { return Fraction{0.3 + 0.7 * cloud.value * cloud.value}; }

MegajoulesPerSquareMetre from_temperature_range(MegajoulesPerSquareMetre extraterrestrial, units::Celsius daily_maximum,
                                                units::Celsius daily_minimum, double adjustment) {
  return extraterrestrial * (adjustment * std::sqrt((daily_maximum - daily_minimum).value));
}

Millimetres precipitable_water(units::Kilopascals vapour_pressure, units::Kilopascals pressure) {
  return Millimetres{0.14 * vapour_pressure.value * pressure.value + 2.1};
}

Radians daily_sun_elevation(int day_of_year, units::Degrees latitude) {
  using std::numbers::pi;
  const double phi = latitude.value * pi / 180.0;
  return Radians{0.85 + 0.3 * phi * std::sin(2.0 * pi * day_of_year / 365.0 - 1.39) - 0.42 * phi * phi};
}

MegajoulesPerSquareMetre clear_sky_by_air(MegajoulesPerSquareMetre extraterrestrial, Radians sun_elevation, units::Kilopascals pressure,
                                          Millimetres precipitable_water, double turbidity) {
  const double sine = std::sin(sun_elevation.value);
  if (sine <= 0.0) return MegajoulesPerSquareMetre{0.0};
  const double beam =
      0.98 * std::exp(-0.00146 * pressure.value / (turbidity * sine) - 0.075 * std::pow(precipitable_water.value / sine, 0.4));
  const double diffuse = beam >= 0.15 ? 0.35 - 0.36 * beam : 0.18 + 0.82 * beam;
  return extraterrestrial * (beam + diffuse);
}

}  // namespace air
