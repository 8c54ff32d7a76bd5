#include "sapflow/root_water.h"

#include <algorithm>

#include "sapflow/quantile.h"

namespace sapflow {

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
