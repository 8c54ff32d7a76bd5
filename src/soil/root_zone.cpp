#include "soil/root_zone.h"

#include <array>
#include <optional>
#include <string>
#include <utility>

#include "soil/fao56_soil_water.h"

namespace soil {
namespace {

struct Limit {
  const char* field;
  double value, lowest, highest;
};

std::string shown(double value) {
  std::string text = std::to_string(value);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

template <std::size_t Size>
std::optional<units::Fault> first_outside(const std::string& owner, const std::array<Limit, Size>& limits) {
  for (const Limit& limit : limits)
    if (!(limit.value >= limit.lowest && limit.value <= limit.highest))
      return units::Fault{owner + "." + limit.field, shown(limit.value),
                          "expected a number from " + shown(limit.lowest) + " to " + shown(limit.highest)};
  return std::nullopt;
}

std::optional<units::Fault> fault_in(const Texture& t) {
  const std::string owner = "soil texture " + t.key;
  auto fault = first_outside(owner, std::array<Limit, 9>{{{"theta_s", t.theta_s, 0.2, 0.9},
                                                          {"theta_r", t.theta_r, 0.0, t.theta_s - 0.01},
                                                          {"alpha_per_cm", t.alpha_per_cm, 0.001, 0.5},
                                                          {"n", t.n, 1.01, 10.0},
                                                          {"ks_cm_per_day", t.ks_cm_per_day, 0.01, 5000.0},
                                                          {"field_capacity_kpa", t.field_capacity_kpa, 1.0, 50.0},
                                                          {"wilting_kpa", t.wilting_kpa, 500.0, 4000.0},
                                                          {"readily_evaporable_mm", t.readily_evaporable_mm, 0.0, 15.0},
                                                          {"total_evaporable_mm", t.total_evaporable_mm, 0.1, 40.0}}});
  if (!fault && t.readily_evaporable_mm >= t.total_evaporable_mm)
    fault = units::Fault{owner + ".readily_evaporable_mm", shown(t.readily_evaporable_mm), "expected less than total_evaporable_mm"};
  return fault;
}

std::optional<units::Fault> fault_in_layers(const std::vector<double>& bottoms) {
  const std::string field = "soil.layer_bottoms_cm";
  if (bottoms.empty()) return units::Fault{field, "", "expected at least one layer"};
  if (!(bottoms.front() >= 5.0 && bottoms.front() <= 15.0))
    return units::Fault{field, shown(bottoms.front()), "expected a first layer from 5 to 15 cm, since it is the one that evaporates"};
  for (std::size_t i = 1; i < bottoms.size(); ++i)
    if (!(bottoms[i] > bottoms[i - 1])) return units::Fault{field, shown(bottoms[i]), "expected depths that rise"};
  if (!(bottoms.back() <= 300.0)) return units::Fault{field, shown(bottoms.back()), "expected at most 300 cm"};
  return std::nullopt;
}

std::optional<units::Fault> fault_in(const Parameters& p) {
  if (auto fault = fault_in_layers(p.layer_bottoms_cm)) return fault;
  return first_outside("soil", std::array<Limit, 33>{{{"root_beta", p.root_beta, 0.85, 0.995},
                                                      {"depletion_share_p", p.depletion_share_p, 0.1, 0.8},
                                                      {"compensation", p.compensation, 0.1, 1.0},
                                                      {"kcb_leafless", p.kcb_leafless, 0.0, 1.2},
                                                      {"kcb_full_leaf", p.kcb_full_leaf, 0.0, 1.4},
                                                      {"kc_max", p.kc_max, 1.0, 1.4},
                                                      {"exposed_leafless", p.exposed_leafless, 0.0, 1.0},
                                                      {"exposed_full_leaf", p.exposed_full_leaf, 0.0, 1.0},
                                                      {"crown_share", p.crown_share, 0.0, 1.0},
                                                      {"leaf_area_index", p.leaf_area_index, 0.0, 10.0},
                                                      {"store_mm_per_lai", p.store_mm_per_lai, 0.05, 0.4},
                                                      {"bark_store_mm", p.bark_store_mm, 0.0, 1.0},
                                                      {"wet_crown_et0_factor", p.wet_crown_et0_factor, 0.5, 3.0},
                                                      {"least_infiltration_mm_per_h", p.least_infiltration_mm_per_h, 0.0, 50.0},
                                                      {"ponding_mm", p.ponding_mm, 0.0, 50.0},
                                                      {"substeps_per_hour", static_cast<double>(p.substeps_per_hour), 1.0, 60.0},
                                                      {"breathing_air", p.breathing_air, 0.0, 0.3},
                                                      {"breathing_share", p.breathing_share, 0.0, 1.0},
                                                      {"breathing_depth_cm", p.breathing_depth_cm, 1.0, 300.0},
                                                      {"temperature_memory_h", p.temperature_memory_h, 1.0, 2000.0},
                                                      {"start_rew", p.start_rew, 0.0, 1.0},
                                                      {"start_rew_sd", p.start_rew_sd, 0.0, 1.0},
                                                      {"settled_rew_sd", p.settled_rew_sd, 0.0, 1.0},
                                                      {"memory_h", p.memory_h, 24.0, 10000.0},
                                                      {"correlation_cm", p.correlation_cm, 1.0, 1000.0},
                                                      {"unknown_rain_mm_per_h", p.unknown_rain_mm_per_h, 0.0, 2.0},
                                                      {"unknown_rain_sd_mm", p.unknown_rain_sd_mm, 0.0, 20.0},
                                                      {"provider_sd_m3_m3", p.provider_sd_m3_m3, 0.005, 0.5},
                                                      {"feel_sd_share", p.feel_sd_share, 0.0, 1.0},
                                                      {"feel_depth_cm", p.feel_depth_cm, 5.0, 100.0},
                                                      {"probe_reach_cm", p.probe_reach_cm, 0.5, 30.0},
                                                      {"probe_sd_m3_m3", p.probe_sd_m3_m3, 0.005, 0.5},
                                                      {"stated_rew_sd", p.stated_rew_sd, 0.01, 0.5}}});
}

}  // namespace

units::Result<RootZone> RootZone::make(Parameters parameters, const Texture& texture) {
  if (auto fault = fault_in(parameters)) return tl::make_unexpected(*std::move(fault));
  if (auto fault = fault_in(texture)) return tl::make_unexpected(*std::move(fault));
  if (!(theta_field_capacity(texture) - theta_wilting(texture) >= 0.001))
    return units::fault("soil texture " + texture.key, "", "expected at least 0.001 m3/m3 of water between field capacity and wilting");
  return RootZone(std::move(parameters), texture);
}

RootZone::RootZone(Parameters parameters, const Texture& texture) : parameters_(std::move(parameters)), curve_(texture) {
  const double deepest_share = 1.0 - std::pow(parameters_.root_beta, parameters_.layer_bottoms_cm.back());
  const double breathing_depth = std::min(parameters_.breathing_depth_cm, parameters_.layer_bottoms_cm.back());
  double top = 0.0;
  for (double bottom : parameters_.layer_bottoms_cm) {
    thickness_mm_.push_back((bottom - top) * 10.0);
    root_share_.push_back((std::pow(parameters_.root_beta, top) - std::pow(parameters_.root_beta, bottom)) / deepest_share);
    water_share_.push_back((bottom - top) / parameters_.layer_bottoms_cm.back());
    breathing_weight_.push_back(std::max(0.0, std::min(bottom, breathing_depth) - top) / breathing_depth);
    top = bottom;
  }
  const double layer_gives = (theta_field_capacity(texture) - driest_theta(0)) * thickness_mm_.front();
  total_evaporable_mm_ = std::min(texture.total_evaporable_mm, layer_gives);
  readily_evaporable_mm_ = texture.readily_evaporable_mm * total_evaporable_mm_ / texture.total_evaporable_mm;
}

double RootZone::driest_theta(std::size_t layer) const {
  return layer == 0 ? std::max(texture().theta_r, 0.5 * curve_.wilting()) : curve_.wilting();
}

double RootZone::rew(const std::vector<double>& theta) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < layers(); ++i) sum += water_share_[i] * std::clamp(curve_.rew(theta[i]), 0.0, 1.0);
  return std::min(sum, 1.0);
}

}  // namespace soil
