// One state of air and the parts of its vapour pressure deficit.
#pragma once
#include <optional>

#include "units/quantity.h"

namespace air {

struct State {
  double temp_c;
  double rh_pct;
  double pressure_kpa;
  double es_kpa;
  double ea_kpa;
  double vpd_kpa;
  std::optional<double> dew_point_c;  // none for air without any vapour
  double slope_kpa_per_c;
  double gamma_kpa_per_c;
};

// FAO-56 eq. 8, 11, 13, 54. Temperature within -60..60 C; relative humidity 0..105 % (above 100 the deficit is 0).
[[nodiscard]] State one_state(units::Celsius temperature, double rh_pct, units::Kilopascals pressure);

}  // namespace air
