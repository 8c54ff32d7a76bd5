// Humidity of air: what it holds, what it could hold, and the difference that pulls on leaves.
// Source: Allen, Pereira, Raes & Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 3 ("FAO-56").
#pragma once
#include "units/quantity.h"

namespace air {

// Saturation vapour pressure over liquid water (eq. 11), also below freezing. Valid -60..60 C; -237.3 C is its pole.
[[nodiscard]] units::Kilopascals saturation_pressure(units::Celsius temperature);

// Slope of the saturation curve (eq. 13). Below the slope of eq. 11 by 0.004 % because the paper rounds 17.27 x 237.3 to 4098.
[[nodiscard]] units::KilopascalsPerKelvin saturation_slope(units::Celsius temperature);

// The temperature at which `pressure` saturates: the inverse of saturation_pressure. Requires pressure > 0.
[[nodiscard]] units::Celsius dew_point(units::Kilopascals pressure);

// Saturation pressure of a day: the mean of its two extremes, because the curve bends (eq. 12).
[[nodiscard]] units::Kilopascals mean_saturation_pressure(units::Celsius daily_maximum, units::Celsius daily_minimum);

// Actual vapour pressure of an instant or an hour from its relative humidity, 0..1 (eq. 54). From a dew point it is
// saturation_pressure(dew point) (eq. 14).
[[nodiscard]] units::Kilopascals vapour_pressure(units::Celsius temperature, units::Fraction relative_humidity);

// Actual vapour pressure of a day.
struct DailyHumidity {
  units::Fraction highest;  // met near the daily minimum of temperature
  units::Fraction lowest;   // near its maximum
};
[[nodiscard]] units::Kilopascals daily_vapour_pressure(units::Celsius daily_maximum, units::Celsius daily_minimum,
                                                       DailyHumidity humidity);  // eq. 17
[[nodiscard]] units::Kilopascals daily_vapour_pressure(units::Celsius daily_maximum, units::Celsius daily_minimum,
                                                       units::Fraction mean_humidity);  // eq. 19

// Ventilation of a psychrometer sets its coefficient, 1/C (eq. 16).
enum class Ventilation { assmann_5_m_s, natural_1_m_s, indoors_still };
[[nodiscard]] double psychrometer_coefficient_per_c(Ventilation ventilation);

// Actual vapour pressure from a dry and a wet bulb at `pressure` of the air (eq. 15).
struct Bulbs {
  units::Celsius dry;
  units::Celsius wet;
};
[[nodiscard]] units::Kilopascals psychrometer_vapour_pressure(Bulbs bulbs, units::Kilopascals pressure, Ventilation ventilation);

// Vapour pressure deficit, never negative: supersaturated air counts as saturated.
[[nodiscard]] units::Kilopascals vapour_pressure_deficit(units::Kilopascals saturation, units::Kilopascals actual);
[[nodiscard]] units::Kilopascals vapour_pressure_deficit(units::Celsius temperature, units::Fraction relative_humidity);

}  // namespace air
