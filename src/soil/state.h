// What the root zone holds at one instant, and how well that is known.
#pragma once
#include <optional>
#include <vector>

#include "soil/root_zone.h"

namespace soil {

struct State {
  std::vector<double> theta;           // m3/m3 by layer
  double ponded_mm = 0.0;              // standing on the surface
  double crown_store_mm = 0.0;         // on leaves and bark, per ground under the crown
  std::optional<double> temp_c;        // root zone; empty until the first known temperature
  double saturated_h = 0.0;            // hours without breathing room so far
  std::vector<double> rew_covariance;  // of the layers' REW errors, row by row, layers x layers
};

// A start from nothing but the guess of the parameters (start_rew, wide start_rew_sd). After Parameters::memory_h hours of run a third of
// the guess's excess variance is left, after three times that a twentieth.
[[nodiscard]] State guessed_start(const RootZone& zone);
// The same from a REW that somebody stated, with its standard deviation, for all layers alike.
[[nodiscard]] State start_at(const RootZone& zone, double rew, double rew_sd);

// Standard deviation of the root zone's REW.
[[nodiscard]] double rew_sd(const RootZone& zone, const State& state);
// Lets one hour of model error pass over the covariance: it relaxes to the settled variance with Parameters::memory_h; an hour of unknown
// rain adds that rain's variance to the layers it may have reached.
void age_uncertainty(const RootZone& zone, bool rain_known, State& state);

// Share of the start's guess that is still in the state after so many hours of run, exp(-hours / memory_h): what a face needs to say how
// the soil's state was come by.
[[nodiscard]] double share_of_start_left(const RootZone& zone, double hours_of_run);

}  // namespace soil
