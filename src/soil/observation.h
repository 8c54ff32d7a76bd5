// What somebody or something says about the water in this ground, and the correction of the state by it (Kalman update; Kalman 1960).
// Every observation is one linear statement: mean water content between two depths, with its standard deviation.
#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "soil/root_zone.h"
#include "soil/state.h"
#include "units/fault.h"
#include "weather/series.h"

namespace soil {

struct Observation {
  std::size_t hour = 0;  // index into the run: the state at that hour's label is corrected
  double top_cm = 0.0, bottom_cm = 0.0;
  double theta = 0.0;     // m3/m3
  double theta_sd = 0.0;  // m3/m3, > 0
};

// Available water by feel and appearance (USDA-NRCS, Estimating Soil Moisture by Feel and Appearance): quarters of the available water.
enum class Feel { below_quarter, quarter_to_half, half_to_three_quarters, above_three_quarters, field_capacity };

// A probe at one depth: it feels Parameters::probe_reach_cm above and below.
[[nodiscard]] Observation probe_reading(const RootZone& zone, std::size_t hour, double depth_cm, double theta, double theta_sd);
// A reading of a hand's probe, with Parameters::probe_sd_m3_m3.
[[nodiscard]] Observation hand_probe(const RootZone& zone, std::size_t hour, double depth_cm, double theta);
// A hand's judgement of the soil between two depths: the middle of the class; its variance is that of the class (width squared / 12) plus
// the hand's own (Parameters::feel_sd_share).
[[nodiscard]] Observation felt(const RootZone& zone, std::size_t hour, double top_cm, double bottom_cm, Feel feel);
// The same of the upper Parameters::feel_depth_cm.
[[nodiscard]] Observation felt_from_the_top(const RootZone& zone, std::size_t hour, Feel feel);
// A stated REW of the whole root zone, with its standard deviation or with Parameters::stated_rew_sd.
[[nodiscard]] Observation stated_rew(const RootZone& zone, std::size_t hour, double rew);
[[nodiscard]] Observation stated_rew(const RootZone& zone, std::size_t hour, double rew, double rew_sd);
// A weather service's modelled soil moisture, layer by layer, at one hour of its series. It describes a grid cell with the service's own
// soil, so its standard deviation is large, and its error is the same tomorrow: hand over ONE hour of it, the latest, never a row of hours
// as if independent.
[[nodiscard]] std::vector<Observation> provider_reading(const RootZone& zone, const std::vector<weather::SoilLayer>& soil,
                                                        std::size_t series_hour, std::size_t run_hour);

// Corrects water contents and covariance by one observation. Contents stay between the driest the layer can be and saturation; the water
// put in or taken out (mm) is returned, since the balance has to know. An observation wholly below the root zone, or with values out of
// range, is a Fault.
[[nodiscard]] units::Result<double> correct(const RootZone& zone, const Observation& observation, State& state);

}  // namespace soil
