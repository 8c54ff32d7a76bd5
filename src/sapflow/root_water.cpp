#include "sapflow/root_water.h"

#include <algorithm>
#include <cmath>

namespace sapflow {
namespace {

double quantile(const std::vector<double>& sorted, double q) {
  const double at = q * static_cast<double>(sorted.size() - 1);
  const auto low = static_cast<std::size_t>(at);
  return std::lerp(sorted[low], sorted[std::min(low + 1, sorted.size() - 1)], at - static_cast<double>(low));
}

}  // namespace

std::vector<double> rew_of_probe(const std::vector<std::optional<double>>& water_m3_m3, double least_available_m3_m3) {
  std::vector<double> seen;
  for (const auto& water : water_m3_m3)
    if (water) seen.push_back(*water);
  if (seen.size() < fewest_hours) return {};
  std::ranges::sort(seen);
  const double wet = quantile(seen, 0.97);
  const double dry = std::min(quantile(seen, 0.005), wet - least_available_m3_m3);
  std::vector<double> rew;
  double last = 1.0;
  for (const auto& water : water_m3_m3) {
    if (water) last = std::clamp((*water - dry) / (wet - dry), 0.0, 1.2);
    rew.push_back(last);
  }
  return rew;
}

}  // namespace sapflow
