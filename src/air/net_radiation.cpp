#include "air/net_radiation.h"

#include "air/longwave.h"

namespace air {

using units::Celsius;
using units::Fraction;
using units::Kilopascals;
using units::MegajoulesPerSquareMetre;

MegajoulesPerSquareMetre net_shortwave(MegajoulesPerSquareMetre shortwave, Fraction albedo) { return shortwave * (1.0 - albedo.value); }

MegajoulesPerSquareMetre black_body_daily(Celsius temperature, StefanBoltzmann sigma) {
  return MegajoulesPerSquareMetre{sigma.mj_k4_m2_d * kelvin_to_the_fourth(temperature.value)};
}

double humidity_factor(Kilopascals vapour_pressure) { return sky_emissivity(vapour_pressure.value); }

double cloudiness_factor(Fraction relative_shortwave) { return cloud_opening(relative_shortwave.value); }

MegajoulesPerSquareMetre net_longwave_daily(Celsius daily_maximum, Celsius daily_minimum, Kilopascals vapour_pressure,
                                            Fraction relative_shortwave, StefanBoltzmann sigma) {
  const MegajoulesPerSquareMetre emitted = 0.5 * (black_body_daily(daily_maximum, sigma) + black_body_daily(daily_minimum, sigma));
  return emitted * (humidity_factor(vapour_pressure) * cloudiness_factor(relative_shortwave));
}

MegajoulesPerSquareMetre net_longwave_hourly(Celsius temperature, Kilopascals vapour_pressure, Fraction relative_shortwave) {
  return black_body_daily(temperature) * (humidity_factor(vapour_pressure) * cloudiness_factor(relative_shortwave) / 24.0);
}

MegajoulesPerSquareMetre soil_heat(double heat_capacity_mj_m3_c, units::Metres depth, Celsius before, Celsius after, double days) {
  return MegajoulesPerSquareMetre{heat_capacity_mj_m3_c * depth.value * (after - before).value / days};
}

MegajoulesPerSquareMetre soil_heat_between_months(Celsius previous, Celsius next) {
  return MegajoulesPerSquareMetre{0.07 * (next - previous).value};
}

MegajoulesPerSquareMetre soil_heat_since_month(Celsius previous, Celsius current) {
  return MegajoulesPerSquareMetre{0.14 * (current - previous).value};
}

MegajoulesPerSquareMetre soil_heat_hourly(MegajoulesPerSquareMetre net_radiation) {
  return net_radiation * (net_radiation.value < 0.0 ? 0.5 : 0.1);
}

}  // namespace air
