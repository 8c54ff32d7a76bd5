#include "sapflow/demand.h"

#include <algorithm>
#include <cmath>

#include "air/saturation.h"
#include "tree/big_leaf.h"
#include "tree/stomata.h"

namespace sapflow {
namespace {

tree::Stomata with(tree::Stomata stomata, const Demand& d) {
  stomata.vpd_slope = d.vpd_slope;
  stomata.vpd_floor = d.vpd_floor;
  stomata.medlyn_g1_sqrt_kpa = d.medlyn_g1_sqrt_kpa;
  stomata.jarvis_half_kpa = d.jarvis_half_kpa;
  stomata.jarvis_steepness = d.jarvis_steepness;
  stomata.light_half_w_m2 = d.light_half_w_m2;
  stomata.temp_low_c = d.temp_low_c;
  return stomata;
}

}  // namespace

void relative_flow(const tree::Stomata& stomata, const Stand& stand, const Form& form, const Demand& demand, const Hours& hours,
                   const Stretch& stretch, std::vector<double>& flow) {
  const tree::Stomata s = with(stomata, demand);
  const double extinction = s.light_extinction.value;
  const double full_light = tree::canopy_light(s.light_half_w_m2, extinction, s.reference_light_w_m2, s.reference_lai);
  const double followed = form.lag ? 1.0 - std::exp(-1.0 / demand.lag_h) : 1.0;
  bool begun = false;
  double behind = 0.0;
  for (std::size_t h = stretch.from; h < stretch.until; ++h) {
    if (!hours.known[h]) {
      flow[h] = behind;
      continue;
    }
    double open = demand.dark_share;
    if (hours.shortwave_w_m2[h] > 0.0) {
      const double light = tree::canopy_light(s.light_half_w_m2, extinction, hours.shortwave_w_m2[h], stand.leaf_area_index) / full_light;
      const double roots = form.soil_water ? tree::root_signal(hours.rew[h], demand.rew_knee, s.rew_knee_sharpness.value) : 1.0;
      open += light * tree::vpd_response(form.vpd, s, hours.vpd_kpa[h]) * tree::temperature_response(s, hours.temp_c[h]) * roots;
    }
    const double conductance_m_s = std::max(0.01 * demand.conductance_cm_s * open, 1e-9);
    const tree::CrownAir air{hours.vpd_kpa[h], air::saturation_slope_kpa_c(air::saturation_terms(hours.temp_c[h])),
                             hours.psychrometric_kpa_c[h], hours.net_radiation_w_m2[h]};
    const double heat = form.coupling == Coupling::stirred ? tree::stirred_crown_w_m2(air, conductance_m_s)
                                                           : tree::big_leaf_w_m2(air, conductance_m_s, 0.01 * demand.aerodynamic_cm_s);
    const double leaves = heat / stand.flow_heat_w_m2;
    behind = begun ? behind + followed * (leaves - behind) : leaves;
    begun = true;
    flow[h] = behind;
  }
}

}  // namespace sapflow
