#include "soil/observation.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <string>

namespace soil {
namespace {

// Share of the observed depth that lies in each layer, of the part inside the root zone; all zero when none does.
Eigen::VectorXd weights(const RootZone& zone, const Observation& observation) {
  Eigen::VectorXd h(static_cast<Eigen::Index>(zone.layers()));
  for (std::size_t i = 0; i < zone.layers(); ++i)
    h[static_cast<Eigen::Index>(i)] =
        std::max(0.0, std::min(zone.bottom_cm(i), observation.bottom_cm) - std::max(zone.top_cm(i), observation.top_cm));
  const double total = h.sum();
  return total > 0.0 ? Eigen::VectorXd(h / total) : h;
}

}  // namespace

Observation probe_reading(const RootZone& zone, std::size_t hour, double depth_cm, double theta, double theta_sd) {
  const double reach_cm = zone.parameters().probe_reach_cm;
  return {hour, std::max(0.0, depth_cm - reach_cm), depth_cm + reach_cm, theta, theta_sd};
}

Observation hand_probe(const RootZone& zone, std::size_t hour, double depth_cm, double theta) {
  return probe_reading(zone, hour, depth_cm, theta, zone.parameters().probe_sd_m3_m3);
}

Observation felt(const RootZone& zone, std::size_t hour, double top_cm, double bottom_cm, Feel feel) {
  double middle = 1.0, width = 0.0;
  if (feel != Feel::field_capacity) {
    width = 0.25;
    middle = width * (static_cast<double>(feel) + 0.5);
  }
  const double own = zone.parameters().feel_sd_share;
  const double sd = std::sqrt(width * width / 12.0 + own * own);
  return {hour, top_cm, bottom_cm, zone.curve().theta(middle), sd * zone.curve().available()};
}

Observation felt_from_the_top(const RootZone& zone, std::size_t hour, Feel feel) {
  return felt(zone, hour, 0.0, zone.parameters().feel_depth_cm, feel);
}

Observation stated_rew(const RootZone& zone, std::size_t hour, double rew) {
  return stated_rew(zone, hour, rew, zone.parameters().stated_rew_sd);
}

Observation stated_rew(const RootZone& zone, std::size_t hour, double rew, double rew_sd) {
  return {hour, 0.0, zone.bottom_cm(zone.layers() - 1), zone.curve().theta(rew), rew_sd * zone.curve().available()};
}

std::vector<Observation> provider_reading(const RootZone& zone, const std::vector<weather::SoilLayer>& soil, std::size_t series_hour,
                                          std::size_t run_hour) {
  std::vector<Observation> readings;
  for (const weather::SoilLayer& layer : soil) {
    const auto theta = layer.moisture_m3_m3.at(series_hour);
    const double top_cm = 100.0 * layer.top.value, bottom_cm = 100.0 * layer.bottom.value;
    if (!theta || top_cm >= zone.bottom_cm(zone.layers() - 1)) continue;
    readings.push_back({run_hour, top_cm, bottom_cm, *theta, zone.parameters().provider_sd_m3_m3});
  }
  return readings;
}

units::Result<double> correct(const RootZone& zone, const Observation& observation, State& state) {
  if (!(observation.theta >= 0.0 && observation.theta <= 1.0))
    return units::fault("soil moisture", std::to_string(observation.theta), "expected a water content from 0 to 1 m3/m3");
  if (!(observation.theta_sd > 0.0 && observation.theta_sd < 1e6))
    return units::fault("soil moisture standard deviation", std::to_string(observation.theta_sd), "expected a positive number");
  const Eigen::VectorXd h = weights(zone, observation);
  if (!(h.sum() > 0.0))
    return units::fault("soil moisture depth", std::to_string(observation.top_cm) + " to " + std::to_string(observation.bottom_cm),
                        "expected depths in cm, top above bottom, inside the root zone");

  const auto n = static_cast<Eigen::Index>(zone.layers());
  const RewCurve& curve = zone.curve();
  Eigen::VectorXd rew(n);
  for (Eigen::Index i = 0; i < n; ++i) rew[i] = curve.rew(state.theta[static_cast<std::size_t>(i)]);
  Eigen::Map<Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>> covariance(state.rew_covariance.data(), n, n);

  const double sd = observation.theta_sd / curve.available();
  const Eigen::VectorXd gain = covariance * h / (h.dot(covariance * h) + sd * sd);
  rew += gain * (curve.rew(observation.theta) - h.dot(rew));
  // Joseph's form stays symmetric and positive whatever the rounding.
  const Eigen::MatrixXd rest = Eigen::MatrixXd::Identity(n, n) - gain * h.transpose();
  const Eigen::MatrixXd updated = rest * covariance * rest.transpose() + gain * gain.transpose() * (sd * sd);
  covariance = updated;

  double added_mm = 0.0;
  for (std::size_t i = 0; i < zone.layers(); ++i) {
    const double theta = std::clamp(curve.theta(rew[static_cast<Eigen::Index>(i)]), zone.driest_theta(i), zone.texture().theta_s);
    added_mm += (theta - state.theta[i]) * zone.thickness_mm(i);
    state.theta[i] = theta;
  }
  return added_mm;
}

}  // namespace soil
