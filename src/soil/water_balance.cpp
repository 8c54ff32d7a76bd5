#include "soil/water_balance.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "soil/fao56_soil_water.h"
#include "soil/redistribution.h"

namespace soil {
namespace {

constexpr double closes_to_mm = 1e-9;

double between(double leafless, double full_leaf, double leaf_share) { return leafless + leaf_share * (full_leaf - leafless); }

double stored_mm(const RootZone& zone, const State& state) {
  double sum = state.ponded_mm + zone.parameters().crown_share * state.crown_store_mm;
  for (std::size_t i = 0; i < zone.layers(); ++i) sum += state.theta[i] * zone.thickness_mm(i);
  return sum;
}

struct Crown {
  double through_mm = 0.0;     // rain that reaches the ground, mean over the root zone
  double evaporated_mm = 0.0;  // from the store, mean over the root zone
};

// Rutter-type store: filled by the crown's own rain, dripping when full, emptied in proportion to the wet share.
Crown pass_crown(const Parameters& p, double rain_mm, double et0_mm, double leaf_share, State& state) {
  const double capacity = p.bark_store_mm + p.store_mm_per_lai * p.leaf_area_index * leaf_share;
  const double held = state.crown_store_mm + rain_mm;
  const double drip = std::max(0.0, held - capacity);
  double store = held - drip;
  const double wet_share = capacity > 0.0 ? store / capacity : 0.0;
  const double evaporated = std::min(store, wet_share * p.wet_crown_et0_factor * et0_mm);
  state.crown_store_mm = store - evaporated;
  return {(1.0 - p.crown_share) * rain_mm + p.crown_share * drip, p.crown_share * evaporated};
}

// Root uptake by layer, mm in `dt_h`: root share times the stress of each layer (FAO-56 eq. 84 by layer), made up for by wetter layers down
// to the critical index (Jarvis 1989, J. Hydrol. 107:57-72).
std::vector<double> uptake_by_layer(const RootZone& zone, const State& state, double demand_mm) {
  const Parameters& p = zone.parameters();
  std::vector<double> uptake(zone.layers());
  double index = 0.0;
  for (std::size_t i = 0; i < zone.layers(); ++i) {
    uptake[i] = zone.root_share()[i] * std::clamp(zone.curve().rew(state.theta[i]) / (1.0 - p.depletion_share_p), 0.0, 1.0);
    index += uptake[i];
  }
  const double per_weight = demand_mm / std::max(index, p.compensation);
  for (std::size_t i = 0; i < zone.layers(); ++i) {
    const double available = std::max(0.0, state.theta[i] - zone.curve().wilting()) * zone.thickness_mm(i);
    uptake[i] = std::min(uptake[i] * per_weight, available);
  }
  return uptake;
}

double evaporation_mm(const RootZone& zone, const State& state, double kcb, double exposed, double et0_mm) {
  const double depletion = (zone.curve().theta(1.0) - state.theta[0]) * zone.thickness_mm(0);
  const double kr = fao56::evaporation_reduction(units::Millimetres{depletion}, units::Millimetres{zone.readily_evaporable_mm()},
                                                 units::Millimetres{zone.total_evaporable_mm()});
  const double ke = fao56::evaporation_coefficient(kr, kcb, zone.parameters().kc_max, exposed);
  return std::min(ke * et0_mm, std::max(0.0, state.theta[0] - zone.driest_theta(0)) * zone.thickness_mm(0));
}

bool water_moves(const RootZone& zone, const State& state, double arriving_mm) {
  constexpr double still_mm_per_h = 0.05;  // slower drainage is the same in one step or in several
  if (arriving_mm > 0.0 || state.ponded_mm > 0.0) return true;
  return std::any_of(state.theta.begin(), state.theta.end(),
                     [&](double theta) { return conductivity_mm_per_h(zone.texture(), theta) > still_mm_per_h; });
}

bool short_of_air(const RootZone& zone, const State& state) {
  const Parameters& p = zone.parameters();
  const double theta_s = zone.texture().theta_s;
  double air = 0.0;
  for (std::size_t i = 0; i < zone.layers(); ++i) air += zone.breathing_weight()[i] * (theta_s - state.theta[i]);
  return air < std::min(p.breathing_air, p.breathing_share * (theta_s - zone.curve().theta(1.0)));
}

}  // namespace

HourFlows step_water(const RootZone& zone, const HourInput& hour, State& state) {
  const Parameters& p = zone.parameters();
  const double before = stored_mm(zone, state);
  HourFlows flows;
  flows.rain = hour.rain_mm.value_or(p.unknown_rain_mm_per_h);
  flows.irrigation = hour.irrigation_mm;

  const Crown crown = pass_crown(p, flows.rain, hour.et0_mm, hour.leaf_share, state);
  flows.interception = crown.evaporated_mm;
  const double kcb = between(p.kcb_leafless, p.kcb_full_leaf, hour.leaf_share);
  const double exposed = between(p.exposed_leafless, p.exposed_full_leaf, hour.leaf_share);
  // The energy that dried the crown does not pull water through it as well.
  const double demand_mm = std::max(0.0, kcb * hour.et0_mm - crown.evaporated_mm);
  const double arriving_mm = crown.through_mm + flows.irrigation;

  const int steps = water_moves(zone, state, arriving_mm) ? p.substeps_per_hour : 1;
  const double dt_h = 1.0 / steps;
  for (int step = 0; step < steps; ++step) {
    const double evaporated = evaporation_mm(zone, state, kcb, exposed, hour.et0_mm * dt_h);
    state.theta[0] -= evaporated / zone.thickness_mm(0);
    flows.evaporation += evaporated;
    const std::vector<double> uptake = uptake_by_layer(zone, state, demand_mm * dt_h);
    for (std::size_t i = 0; i < zone.layers(); ++i) {
      state.theta[i] -= uptake[i] / zone.thickness_mm(i);
      flows.uptake += uptake[i];
    }
    const Redistribution moved = redistribute(zone, state.ponded_mm + arriving_mm * dt_h, dt_h, state.theta);
    flows.drainage += moved.drained_mm;
    state.ponded_mm = std::min(moved.left_on_surface_mm, p.ponding_mm);
    flows.runoff += moved.left_on_surface_mm - state.ponded_mm;
  }
  state.saturated_h = short_of_air(zone, state) ? state.saturated_h + 1.0 : 0.0;

  flows.imbalance = (stored_mm(zone, state) - before) - (flows.rain + flows.irrigation) +
                    (flows.interception + flows.evaporation + flows.uptake + flows.drainage + flows.runoff);
  return flows;
}

namespace {

std::string at_hour(const char* name, std::size_t hour) { return std::string(name) + " of hour " + std::to_string(hour); }

std::optional<units::Fault> outside(const weather::Column& column, const char* name, double lowest, double highest) {
  for (std::size_t h = 0; h < column.size(); ++h)
    if (const auto value = column.at(h); value && !(*value >= lowest && *value <= highest))
      return units::Fault{at_hour(name, h), std::to_string(*value),
                          "expected a number from " + std::to_string(lowest) + " to " + std::to_string(highest)};
  return std::nullopt;
}

std::optional<units::Fault> fault_in(const Forcing& f, const std::vector<Observation>& observations) {
  const std::size_t hours = f.rain_mm.size();
  const auto fits = [&](const weather::Column& column, bool may_be_empty) {
    return column.size() == hours || (may_be_empty && column.size() == 0);
  };
  if (!fits(f.et0_mm, false) || !fits(f.temp_c, false) || !fits(f.irrigation_mm, true) || !fits(f.soil_temp_c, true) ||
      f.leaf_share.size() != hours)
    return units::Fault{"soil forcing", "", "expected columns of one length"};
  if (auto fault = outside(f.rain_mm, "rain_mm", 0.0, 400.0)) return fault;
  if (auto fault = outside(f.irrigation_mm, "irrigation_mm", 0.0, 400.0)) return fault;
  if (auto fault = outside(f.et0_mm, "et0_mm", -1.0, 3.0)) return fault;
  if (auto fault = outside(f.temp_c, "temp_c", -60.0, 60.0)) return fault;
  if (auto fault = outside(f.soil_temp_c, "soil temp_c", -60.0, 60.0)) return fault;
  for (std::size_t h = 0; h < hours; ++h)
    if (!(f.leaf_share[h] >= 0.0 && f.leaf_share[h] <= 1.0))
      return units::Fault{at_hour("leaf_share", h), std::to_string(f.leaf_share[h]), "expected a share from 0 to 1"};
  if (hours > 0 && f.et0_mm.empty()) return units::Fault{"et0_mm", "", "expected at least one hour with a value"};
  for (const Observation& observation : observations)
    if (observation.hour >= hours)
      return units::Fault{"soil observation", std::to_string(observation.hour),
                          "expected an hour of the run, 0 to one less than its length"};
  return std::nullopt;
}

std::optional<units::Fault> fault_in(const RootZone& zone, const State& state) {
  constexpr double rounding = 1e-9;
  const std::size_t n = zone.layers();
  if (state.theta.size() != n || state.rew_covariance.size() != n * n)
    return units::Fault{"soil state", std::to_string(state.theta.size()), "expected as many layers as the root zone has"};
  for (double theta : state.theta)
    if (!(theta >= zone.texture().theta_r - rounding && theta <= zone.texture().theta_s + rounding))
      return units::Fault{"soil state", std::to_string(theta), "expected a water content from residual to saturated"};
  return std::nullopt;
}

// ET0 without gaps: the same hour of the nearest known day before, else the mean of what is known.
struct FilledEt0 {
  std::vector<double> mm;
  std::size_t assumed = 0;
};

FilledEt0 fill(const weather::Column& et0) {
  FilledEt0 filled;
  double sum = 0.0;
  std::size_t known = 0;
  for (std::size_t h = 0; h < et0.size(); ++h)
    if (const auto value = et0.at(h)) {
      sum += std::max(0.0, *value);
      ++known;
    }
  const double mean = known > 0 ? sum / static_cast<double>(known) : 0.0;
  for (std::size_t h = 0; h < et0.size(); ++h) {
    const auto value = et0.at(h);
    // Dew is not in the books of the ground: an hour with condensation takes nothing.
    if (value)
      filled.mm.push_back(std::max(0.0, *value));
    else
      filled.mm.push_back(h >= 24 ? filled.mm[h - 24] : mean);
    if (!value) ++filled.assumed;
  }
  return filled;
}

// The first temperature a run can go by: the mean of the air over its first days, as far as the ground's memory reaches.
std::optional<double> first_temperature(const RootZone& zone, const Forcing& f) {
  double sum = 0.0;
  std::size_t known = 0;
  for (std::size_t h = 0; h < f.temp_c.size(); ++h) {
    if (known > 0 && static_cast<double>(h) > zone.parameters().temperature_memory_h) break;
    if (const auto value = f.temp_c.at(h)) {
      sum += *value;
      ++known;
    }
  }
  return known > 0 ? std::optional{sum / static_cast<double>(known)} : std::nullopt;
}

void step_temperature(const RootZone& zone, std::optional<double> air_c, std::optional<double> soil_c, State& state) {
  if (soil_c)
    state.temp_c = soil_c;
  else if (air_c && state.temp_c)
    *state.temp_c += (1.0 - std::exp(-1.0 / zone.parameters().temperature_memory_h)) * (*air_c - *state.temp_c);
}

void record(const RootZone& zone, const State& state, const HourFlows& flows, double corrected_mm, Hours& hours) {
  const double rew = zone.rew(state.theta);
  hours.rew.push_back(rew);
  hours.rew_sd.push_back(rew_sd(zone, state));
  hours.psi_mpa.push_back(zone.curve().psi_mpa(rew));
  hours.temp_c.push_back(*state.temp_c);
  hours.saturated_h.push_back(state.saturated_h);
  hours.ponded_mm.push_back(state.ponded_mm);
  for (std::size_t i = 0; i < zone.layers(); ++i) hours.theta[i].push_back(state.theta[i]);
  hours.rain_mm.push_back(flows.rain);
  hours.irrigation_mm.push_back(flows.irrigation);
  hours.interception_mm.push_back(flows.interception);
  hours.evaporation_mm.push_back(flows.evaporation);
  hours.uptake_mm.push_back(flows.uptake);
  hours.drainage_mm.push_back(flows.drainage);
  hours.runoff_mm.push_back(flows.runoff);
  hours.correction_mm.push_back(corrected_mm);
}

}  // namespace

units::Result<Run> run(const RootZone& zone, const State& start, const Forcing& forcing, const std::vector<Observation>& observations) {
  if (auto fault = fault_in(forcing, observations)) return tl::make_unexpected(*std::move(fault));
  if (auto fault = fault_in(zone, start)) return tl::make_unexpected(*std::move(fault));
  Run run;
  run.end = start;
  run.hours.theta.resize(zone.layers());
  const FilledEt0 et0 = fill(forcing.et0_mm);
  run.assumed_et0_h = et0.assumed;
  if (!run.end.temp_c) run.end.temp_c = first_temperature(zone, forcing);

  for (std::size_t h = 0; h < forcing.rain_mm.size(); ++h) {
    const HourInput hour{forcing.rain_mm.at(h), forcing.irrigation_mm.at(h).value_or(0.0), et0.mm[h], forcing.leaf_share[h]};
    const HourFlows flows = step_water(zone, hour, run.end);
    run.largest_imbalance_mm = std::max(run.largest_imbalance_mm, std::abs(flows.imbalance));
    if (!(std::abs(flows.imbalance) <= closes_to_mm))
      return units::fault(at_hour("water balance", h), std::to_string(flows.imbalance), "expected water in = water out + stored");
    step_temperature(zone, forcing.temp_c.at(h), forcing.soil_temp_c.at(h), run.end);
    if (!run.end.temp_c) return units::fault("temp_c", "", "expected at least one hour of air or soil temperature");
    age_uncertainty(zone, hour.rain_mm.has_value(), run.end);
    if (!hour.rain_mm) ++run.unknown_rain_h;
    double corrected_mm = 0.0;
    for (const Observation& observation : observations)
      if (observation.hour == h) {
        const auto added = correct(zone, observation, run.end);
        if (!added) return tl::make_unexpected(added.error());
        corrected_mm += *added;
      }
    record(zone, run.end, flows, corrected_mm, run.hours);
  }
  return run;
}

}  // namespace soil
