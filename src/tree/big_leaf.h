// Transpiration of a crown by the hour, as heat: every leaf in the air as it is measured, or one big leaf whose own air stands between.
// docs/model/sapflow.md eqs. (1)-(2).
#pragma once

namespace tree {

// Density times specific heat of air, J m-3 K-1: 1.2 kg/m3 by 1005 J/kg/K, within a tenth from sea level to 1000 m.
inline constexpr double air_heat_j_m3_k = 1206.0;

struct CrownAir {
  double vpd_kpa = 0.0;
  double slope_kpa_c = 0.0;          // of the saturation curve
  double psychrometric_kpa_c = 0.0;  // > 0
  double net_radiation_w_m2 = 0.0;   // caught by the crown; below 0 it counts as 0
};

// Leaves in well-stirred air: dryness alone pulls (the limit of the big leaf in strong wind). Conductances in m/s per ground area.
[[nodiscard]] inline double stirred_crown_w_m2(const CrownAir& air, double conductance_m_s) {
  return air_heat_j_m3_k * air.vpd_kpa * conductance_m_s / air.psychrometric_kpa_c;
}

// One big leaf (Monteith 1965): radiation drives too, the more so the smaller the conductance of the air. Both conductances above 0.
[[nodiscard]] inline double big_leaf_w_m2(const CrownAir& air, double conductance_m_s, double aerodynamic_m_s) {
  const double radiation = air.net_radiation_w_m2 > 0.0 ? air.net_radiation_w_m2 : 0.0;
  return (air.slope_kpa_c * radiation + air_heat_j_m3_k * air.vpd_kpa * aerodynamic_m_s) /
         (air.slope_kpa_c + air.psychrometric_kpa_c * (1.0 + aerodynamic_m_s / conductance_m_s));
}

}  // namespace tree
