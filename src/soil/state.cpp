#include "soil/state.h"

#include <algorithm>
#include <cmath>

namespace soil {
namespace {

double middle_cm(const RootZone& zone, std::size_t layer) { return 0.5 * (zone.top_cm(layer) + zone.bottom_cm(layer)); }

double covariance(const RootZone& zone, std::size_t a, std::size_t b, double sd) {
  return sd * sd * std::exp(-std::abs(middle_cm(zone, a) - middle_cm(zone, b)) / zone.parameters().correlation_cm);
}

// REW is a share: nobody can know less about it than that it lies between 0 and 1.
void keep_within_ignorance(const RootZone& zone, std::vector<double>& cov) {
  const std::size_t n = zone.layers();
  const double most = std::max({zone.parameters().start_rew_sd, zone.parameters().settled_rew_sd, std::sqrt(1.0 / 12.0)});
  for (std::size_t i = 0; i < n; ++i) {
    const double variance = cov[i * n + i];
    if (variance <= most * most) continue;
    const double shrink = most / std::sqrt(variance);
    for (std::size_t j = 0; j < n; ++j) {
      cov[i * n + j] *= shrink;
      cov[j * n + i] *= shrink;
    }
  }
}

}  // namespace

State start_at(const RootZone& zone, double rew, double sd) {
  const std::size_t n = zone.layers();
  State state;
  state.theta.assign(n, zone.curve().theta(rew));
  state.rew_covariance.resize(n * n);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) state.rew_covariance[i * n + j] = covariance(zone, i, j, sd);
  return state;
}

State guessed_start(const RootZone& zone) { return start_at(zone, zone.parameters().start_rew, zone.parameters().start_rew_sd); }

double rew_sd(const RootZone& zone, const State& state) {
  const std::size_t n = zone.layers();
  double variance = 0.0;
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) variance += zone.water_share()[i] * zone.water_share()[j] * state.rew_covariance[i * n + j];
  return std::sqrt(std::max(variance, 0.0));
}

void age_uncertainty(const RootZone& zone, bool rain_known, State& state) {
  const std::size_t n = zone.layers();
  const Parameters& p = zone.parameters();
  const double kept = std::exp(-1.0 / p.memory_h);
  // Unknown rain is one error that all layers share, in the water that reaches each.
  const auto rain_error = [&](std::size_t i) {
    return p.unknown_rain_sd_mm * zone.root_share()[i] / (zone.curve().available() * zone.thickness_mm(i));
  };
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) {
      double& cell = state.rew_covariance[i * n + j];
      cell = kept * cell + (1.0 - kept) * covariance(zone, i, j, p.settled_rew_sd);
      if (!rain_known) cell += rain_error(i) * rain_error(j);
    }
  keep_within_ignorance(zone, state.rew_covariance);
}

double share_of_start_left(const RootZone& zone, double hours_of_run) { return std::exp(-hours_of_run / zone.parameters().memory_h); }

}  // namespace soil
