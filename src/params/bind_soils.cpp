#include <fmt/format.h>

#include <cmath>

#include "params/bind.h"

namespace params {
namespace {

soil::Texture bind_texture(Section& s, const std::string& key) {
  soil::Texture to;
  to.key = key;
  to.name = s.text("name");
  to.theta_r = s.number("theta_r", "m3/m3");
  to.theta_s = s.number("theta_s", "m3/m3");
  to.alpha_per_cm = s.number("alpha", "1/cm");
  to.n = s.number("n", "1");
  to.ks_cm_per_day = s.number("ks", "cm/d");
  to.field_capacity_kpa = s.number("field_capacity", "kPa");
  to.wilting_kpa = s.number("wilting", "kPa");
  to.readily_evaporable_mm = s.number("readily_evaporable", "mm");
  to.total_evaporable_mm = s.number("total_evaporable", "mm");
  s.in_order("theta_r", to.theta_r, "theta_s", to.theta_s);
  s.in_order("readily_evaporable", to.readily_evaporable_mm, "total_evaporable", to.total_evaporable_mm);
  return to;
}

std::vector<double> bind_layers(Section& s) {
  std::vector<double> bottoms_cm;
  for (const auto& [layer, bottom_cm] : s.series("layer_bottoms", "d", "cm")) {
    if (!bottoms_cm.empty() && bottom_cm <= bottoms_cm.back())
      s.reading().fail(s.where(fmt::format("layer_bottoms.d{}", layer)), fmt::format("{}", bottom_cm),
                       fmt::format("expected below the layer above it, which ends at {} cm", bottoms_cm.back()));
    bottoms_cm.push_back(bottom_cm);
  }
  return bottoms_cm;
}

int whole(Section& s, std::string_view name, std::string_view unit) {
  const double value = s.number(name, unit);
  if (value != std::round(value)) s.reading().fail(s.set_at(name), fmt::format("{}", value), "expected a whole number");
  return static_cast<int>(std::lround(value));
}

void bind_cover(Section& s, soil::Parameters& to) {
  to.kcb_leafless = s.number("kcb_leafless", "1");
  to.kcb_full_leaf = s.number("kcb_full_leaf", "1");
  to.kc_max = s.number("kc_max", "1");
  to.exposed_leafless = s.number("exposed_leafless", "1");
  to.exposed_full_leaf = s.number("exposed_full_leaf", "1");
  to.crown_share = s.number("crown_share", "1");
  to.leaf_area_index = s.number("leaf_area_index", "1");
  to.store_mm_per_lai = s.number("store_per_lai", "mm");
  to.bark_store_mm = s.number("bark_store", "mm");
  to.wet_crown_et0_factor = s.number("wet_crown_et0_factor", "1");
}

void bind_water(Section& s, soil::Parameters& to) {
  to.least_infiltration_mm_per_h = s.number("least_infiltration", "mm/h");
  to.ponding_mm = s.number("ponding", "mm");
  to.substeps_per_hour = whole(s, "substeps", "1/h");
  to.breathing_air = s.number("breathing_air", "m3/m3");
  to.breathing_share = s.number("breathing_share", "1");
  to.breathing_depth_cm = s.number("breathing_depth", "cm");
  to.temperature_memory_h = s.number("temperature_memory", "h");
}

void bind_knowledge(Section& s, soil::Parameters& to) {
  to.start_rew = s.number("start_rew", "1");
  to.start_rew_sd = s.number("start_rew_sd", "1");
  to.settled_rew_sd = s.number("settled_rew_sd", "1");
  to.memory_h = s.number("memory", "h");
  to.correlation_cm = s.number("correlation", "cm");
  to.unknown_rain_mm_per_h = s.number("unknown_rain", "mm/h");
  to.unknown_rain_sd_mm = s.number("unknown_rain_sd", "mm");
  to.provider_sd_m3_m3 = s.number("provider_sd", "m3/m3");
  to.feel_sd_share = s.number("feel_sd_share", "1");
  to.feel_depth_cm = s.number("feel_depth", "cm");
  to.probe_reach_cm = s.number("probe_reach", "cm");
  to.probe_sd_m3_m3 = s.number("probe_sd", "m3/m3");
  to.stated_rew_sd = s.number("stated_rew_sd", "1");
}

void bind_plot(Section& s, soil::PlotParameters& to) {
  to.priors.kcb = s.uncertain("kcb", "1");
  to.priors.exposed = s.uncertain("exposed", "1");
  to.priors.depletion_share_p = s.uncertain("depletion_share_p", "1");
  to.priors.wilting_share = s.uncertain("wilting_share", "1");
  to.priors.capacity_share = s.uncertain("capacity_share", "1");
  to.priors.capacity_flux_mm_d = s.uncertain("capacity_flux", "mm/d");
  to.driest_quantile = s.number("driest_quantile", "1");
  to.wettest_quantile = s.number("wettest_quantile", "1");
  to.residual_share = s.number("residual_share", "1");
  to.root_beta = s.number("root_beta", "1");
  to.compensation = s.number("compensation", "1");
  to.settled_rew_sd = s.number("settled_rew_sd", "1");
  to.memory_h = s.number("memory", "h");
  to.correlation_cm = s.number("correlation", "cm");
  to.measured_sd_m3_m3 = s.number("measured_sd", "m3/m3");
  to.forecast_sd = s.number("forecast_sd", "1");
  to.days_alike = s.number("days_alike", "d");
  to.lead_days = s.number("lead", "d");
  to.run_days = s.number("run", "d");
}

}  // namespace

void bind_soils(Section& file, std::vector<soil::Texture>& textures, soil::Parameters& root_zone, soil::PlotParameters& plot) {
  file.section("textures", [&](Section& all) {
    all.each([&](const std::string& key) { all.section(key, [&](Section& s) { textures.push_back(bind_texture(s, key)); }); });
  });
  file.section("root_zone", [&](Section& s) {
    root_zone.layer_bottoms_cm = bind_layers(s);
    root_zone.root_beta = s.number("root_beta", "1");
    root_zone.depletion_share_p = s.number("depletion_share_p", "1");
    root_zone.compensation = s.number("compensation", "1");
    bind_cover(s, root_zone);
    bind_water(s, root_zone);
    bind_knowledge(s, root_zone);
  });
  file.section("plot", [&](Section& s) { bind_plot(s, plot); });
}

}  // namespace params
