#include "air/humidity.h"

#include <algorithm>
#include <cmath>

#include "air/saturation.h"

namespace air {

using units::Celsius;
using units::Fraction;
using units::Kilopascals;
using units::KilopascalsPerKelvin;

Kilopascals saturation_pressure(Celsius temperature) { return Kilopascals{saturation_kpa(temperature.value)}; }

KilopascalsPerKelvin saturation_slope(Celsius temperature) {
  return KilopascalsPerKelvin{saturation_slope_kpa_c(saturation_terms(temperature.value))};
}

Celsius dew_point(Kilopascals pressure) {
  const double log_ratio = std::log(pressure.value / 0.6108);
  return Celsius{saturation_pole_c * log_ratio / (17.27 - log_ratio)};
}

Kilopascals mean_saturation_pressure(Celsius daily_maximum, Celsius daily_minimum) {
  return 0.5 * (saturation_pressure(daily_maximum) + saturation_pressure(daily_minimum));
}

Kilopascals vapour_pressure(Celsius temperature, Fraction relative_humidity) {
  return saturation_pressure(temperature) * relative_humidity.value;
}

Kilopascals daily_vapour_pressure(Celsius daily_maximum, Celsius daily_minimum, DailyHumidity humidity) {
  return 0.5 * (vapour_pressure(daily_minimum, humidity.highest) + vapour_pressure(daily_maximum, humidity.lowest));
}

Kilopascals daily_vapour_pressure(Celsius daily_maximum, Celsius daily_minimum, Fraction mean_humidity) {
  return mean_saturation_pressure(daily_maximum, daily_minimum) * mean_humidity.value;
}

double psychrometer_coefficient_per_c(Ventilation ventilation) {
  switch (ventilation) {
    case Ventilation::assmann_5_m_s:
      return 0.000662;
    case Ventilation::natural_1_m_s:
      return 0.0008;
    case Ventilation::indoors_still:
      break;
  }
  return 0.0012;
}

Kilopascals psychrometer_vapour_pressure(Bulbs bulbs, Kilopascals pressure, Ventilation ventilation) {
  const double gamma = psychrometer_coefficient_per_c(ventilation) * pressure.value;
  return saturation_pressure(bulbs.wet) - Kilopascals{gamma * (bulbs.dry - bulbs.wet).value};
}

Kilopascals vapour_pressure_deficit(Kilopascals saturation, Kilopascals actual) { return std::max(Kilopascals{0.0}, saturation - actual); }

Kilopascals vapour_pressure_deficit(Celsius temperature, Fraction relative_humidity) {
  return vapour_pressure_deficit(saturation_pressure(temperature), vapour_pressure(temperature, relative_humidity));
}

}  // namespace air
