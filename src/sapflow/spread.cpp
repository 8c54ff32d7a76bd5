#include "sapflow/spread.h"

#include <algorithm>
#include <cmath>

namespace sapflow {
namespace {

constexpr double normal_p90 = 1.2816;
constexpr double least_share = 0.3;  // of the squared width seen, however much better a level is known

// Quantile of sorted values, linear between them.
double quantile(const std::vector<double>& sorted, double q) {
  const double at = q * static_cast<double>(sorted.size() - 1);
  const auto low = static_cast<std::size_t>(at);
  return std::lerp(sorted[low], sorted[std::min(low + 1, sorted.size() - 1)], at - static_cast<double>(low));
}

}  // namespace

Spread::Spread(std::vector<Miss> misses) {
  constexpr std::size_t hours_a_group = 60, fewest = 2, most = 10;
  std::ranges::sort(misses, {}, &Miss::said);
  const std::size_t count = std::min(std::clamp(misses.size() / hours_a_group, fewest, most), misses.size());
  for (std::size_t g = 0; g < count; ++g) {
    const std::size_t from = g * misses.size() / count, until = (g + 1) * misses.size() / count;
    const double n = static_cast<double>(until - from);
    std::vector<double> errors;
    Group group{};
    for (std::size_t i = from; i < until; ++i) {
      errors.push_back(misses[i].measured - misses[i].said);
      group.said += misses[i].said / n;
      group.level_variance += misses[i].level_variance / n;
    }
    std::ranges::sort(errors);
    group.below = std::max(0.0, -quantile(errors, 0.1));
    group.above = std::max(0.0, quantile(errors, 0.9));
    groups_.push_back(group);
  }
}

Range Spread::around(double said, double level_variance) const {
  Group at{said, 0.0, 0.0, 0.0};
  if (!groups_.empty()) {
    const auto above = std::ranges::lower_bound(groups_, said, {}, &Group::said);
    if (above == groups_.begin())
      at = groups_.front();
    else if (above == groups_.end())
      at = groups_.back();
    else {
      const Group& low = *(above - 1);
      const double share = (said - low.said) / (above->said - low.said);
      at = {said, std::lerp(low.below, above->below, share), std::lerp(low.above, above->above, share),
            std::lerp(low.level_variance, above->level_variance, share)};
    }
  }
  const double level = normal_p90 * normal_p90 * said * said * (level_variance - at.level_variance);
  const auto width = [&](double seen) { return std::sqrt(std::max(seen * seen + level, least_share * seen * seen)); };
  return {std::max(0.0, said - width(at.below)), said, said + width(at.above)};
}

}  // namespace sapflow
