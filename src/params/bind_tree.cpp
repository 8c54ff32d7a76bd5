#include "params/bind.h"

namespace params {
namespace {

void bind_stomata(Section& s, tree::Stomata& to) {
  to.g_ref_mmol_m2_s = s.uncertain("g_ref", "mmol/m2/s");
  to.light_extinction = s.uncertain("light_extinction", "1");
  to.psi_half_mpa = s.uncertain("psi_half", "MPa");
  to.psi_shape = s.half_step("psi_shape");
  to.vpd_slope = s.number("vpd_slope", "1");
  to.vpd_cap_kpa = s.number("vpd_cap", "kPa");
  to.vpd_floor = s.number("vpd_floor", "1");
  to.medlyn_g1_sqrt_kpa = s.number("medlyn_g1", "kPa^0.5");
  to.jarvis_half_kpa = s.number("jarvis_half", "kPa");
  to.jarvis_steepness = s.number("jarvis_steepness", "1");
  to.light_half_w_m2 = s.number("light_half", "W/m2");
  to.reference_light_w_m2 = s.number("reference_light", "W/m2");
  to.reference_lai = s.number("reference_lai", "1");
  to.temp_min_c = s.number("temp_min", "degC");
  to.temp_low_c = s.number("temp_low", "degC");
  to.temp_high_c = s.number("temp_high", "degC");
  to.temp_max_c = s.number("temp_max", "degC");
  to.minimum_mmol_m2_s = s.number("minimum", "mmol/m2/s");
  to.rew_knee = s.uncertain("rew_knee", "1");
  to.rew_knee_sharpness = s.uncertain("rew_knee_sharpness", "1");
  to.cold_full_c = s.number("cold_full", "degC");
  to.flooded_share = s.number("flooded_share", "1");
  to.flooded_after_h = s.number("flooded_after", "h");
}

void bind_hydraulics(Section& s, tree::Hydraulics& to) {
  to.whole_plant_mm_d_mpa = s.uncertain("whole_plant", "mm/d/MPa");
  to.root_share = s.uncertain("root_share", "1");
  to.backflow = s.uncertain("backflow", "1");
  to.rew_half_conductance = s.uncertain("rew_half_conductance", "1");
  to.p50_mpa = s.uncertain("p50", "MPa");
  to.vulnerability_shape = s.half_step("vulnerability_shape");
  to.elastic_l_m3_mpa = s.uncertain("elastic", "L/m3/MPa");
  to.base_store_share = s.number("base_store_share", "1");
  to.huber_m2_m2 = s.number("huber", "m2/m2");
  to.crown_height_share = s.number("crown_height_share", "1");
}

tree::VpdForm vpd_form(Section& s) {
  const std::string name = s.text("vpd_form");
  if (name == "medlyn") return tree::VpdForm::medlyn;
  if (name == "jarvis") return tree::VpdForm::jarvis;
  if (name != "oren" && !name.empty()) s.reading().fail(s.where("vpd_form"), name, "expected oren, medlyn or jarvis");
  return tree::VpdForm::oren;
}

}  // namespace

void bind_tree(Section& file, tree::Parameters& tree) {
  tree.vpd_form = vpd_form(file);
  file.section("stomata", [&](Section& s) { bind_stomata(s, tree.stomata); });
  file.section("hydraulics", [&](Section& s) { bind_hydraulics(s, tree.hydraulics); });
  file.section("wet_crown", [&](Section& s) {
    tree.wet_crown.store_mm_per_lai = s.number("store_per_lai", "mm");
    tree.wet_crown.drying_factor = s.number("drying_factor", "1");
  });
}

}  // namespace params
