#include "sapflow/spread.h"

#include <algorithm>
#include <cmath>

#include "sapflow/quantile.h"

namespace sapflow {
namespace {

constexpr double normal_p90 = 1.2816;

}  // namespace

Spread::Spread(std::vector<Miss> misses, double hours_alike) {
  constexpr std::size_t hours_a_group = 60, fewest = 2, most = 10;
  std::ranges::sort(misses, {}, &Miss::flow);
  const std::size_t count = std::min(std::clamp(misses.size() / hours_a_group, fewest, most), misses.size());
  for (std::size_t g = 0; g < count; ++g) {
    const std::size_t from = g * misses.size() / count, until = (g + 1) * misses.size() / count;
    const double n = static_cast<double>(until - from);
    std::vector<double> errors;
    Group group{};
    for (std::size_t i = from; i < until; ++i) {
      errors.push_back(misses[i].measured * std::exp(-misses[i].ln_level) - misses[i].flow);
      group.flow += misses[i].flow / n;
      group.ln_level_variance += misses[i].ln_level_variance / n;
    }
    std::ranges::sort(errors);
    // Median-unbiased place of the 10 % quantile (Hyndman & Fan 1996, definition 8) among as many errors as are independent.
    const double independent = std::max(n / hours_alike, 7.0);
    const double tail = (0.1 * (independent + 1.0 / 3.0) - 2.0 / 3.0) / (independent - 1.0);
    group.below = std::max(0.0, -quantile(errors, tail));
    group.above = std::max(0.0, quantile(errors, 1.0 - tail));
    groups_.push_back(group);
  }
}

Spread::Group Spread::at(double flow) const {
  if (groups_.empty()) return {flow, 0.0, 0.0, 0.0};
  const auto high = std::ranges::lower_bound(groups_, flow, {}, &Group::flow);
  if (high == groups_.begin()) return groups_.front();
  if (high == groups_.end()) return groups_.back();
  const Group& low = *(high - 1);
  const double share = (flow - low.flow) / (high->flow - low.flow);
  return {flow, std::lerp(low.below, high->below, share), std::lerp(low.above, high->above, share),
          std::lerp(low.ln_level_variance, high->ln_level_variance, share)};
}

Range Spread::around(double flow, double ln_level, double ln_level_variance) const {
  const Group seen = at(flow);
  const double level = std::exp(ln_level);
  const double more_vague = std::max(0.0, ln_level_variance - seen.ln_level_variance);
  const double from_level = normal_p90 * normal_p90 * flow * flow * more_vague;
  const auto width = [&](double w) { return level * std::sqrt(w * w + from_level); };
  const double said = flow * level;
  return {std::max(0.0, said - width(seen.below)), said, said + width(seen.above)};
}

}  // namespace sapflow
