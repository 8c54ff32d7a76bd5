#include "air/state.h"

#include "air/humidity.h"
#include "air/pressure.h"

namespace air {

State one_state(units::Celsius temperature, double rh_pct, units::Kilopascals pressure) {
  const units::Kilopascals saturation = saturation_pressure(temperature);
  const units::Kilopascals actual = vapour_pressure(temperature, units::Fraction{rh_pct / 100.0});
  State state{};
  state.temp_c = temperature.value;
  state.rh_pct = rh_pct;
  state.pressure_kpa = pressure.value;
  state.es_kpa = saturation.value;
  state.ea_kpa = actual.value;
  state.vpd_kpa = vapour_pressure_deficit(saturation, actual).value;
  if (actual.value > 0.0) state.dew_point_c = dew_point(actual).value;
  state.slope_kpa_per_c = saturation_slope(temperature).value;
  state.gamma_kpa_per_c = psychrometric_constant(pressure).value;
  return state;
}

}  // namespace air
