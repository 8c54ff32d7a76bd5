#include "params/bind.h"

namespace params {
namespace {

void bind_demand(Section& s, sapflow::Priors& to) {
  to.conductance_cm_s = s.uncertain("conductance", "cm/s");
  to.aerodynamic_cm_s = s.uncertain("aerodynamic", "cm/s");
  to.vpd_slope = s.uncertain("vpd_slope", "1");
  to.vpd_floor = s.uncertain("vpd_floor", "1");
  to.medlyn_g1_sqrt_kpa = s.uncertain("medlyn_g1", "kPa^0.5");
  to.jarvis_half_kpa = s.uncertain("jarvis_half", "kPa");
  to.jarvis_steepness = s.uncertain("jarvis_steepness", "1");
  to.light_half_w_m2 = s.uncertain("light_half", "W/m2");
  to.temp_low_c = s.uncertain("temp_low", "degC");
  to.rew_knee = s.uncertain("rew_knee", "1");
  to.dark_share = s.uncertain("dark_share", "1");
  to.lag_h = s.uncertain("lag", "h");
}

void bind_noise(Section& s, sapflow::Noise& to) {
  to.hour_sd = s.number("hour_sd", "1");
  to.hours_alike = s.number("hours_alike", "h");
  to.day_ln_sd = s.number("day_ln_sd", "1");
  to.drift_ln_sd = s.number("drift_ln_sd", "1");
  to.drift_days = s.number("drift_days", "d");
  to.season_gap_days = s.number("season_gap_days", "d");
  to.tree_season_ln_sd = s.number("tree_season_ln_sd", "1");
  to.trees_together = s.number("trees_together", "1");
  to.season_fall = s.number("season_fall", "1");
}

void bind_stand(Section& s, sapflow::Stand& to) {
  to.leaf_area_index = s.number("leaf_area_index", "1");
  to.flow_heat_w_m2 = s.number("flow_heat", "W/m2");
  to.least_available_m3_m3 = s.number("least_available", "m3/m3");
}

}  // namespace

void bind_sapflow(Section& file, sapflow::Parameters& sapflow) {
  file.section("demand", [&](Section& s) { bind_demand(s, sapflow.priors); });
  file.section("noise", [&](Section& s) { bind_noise(s, sapflow.noise); });
  file.section("stand", [&](Section& s) { bind_stand(s, sapflow.stand); });
}

}  // namespace params
