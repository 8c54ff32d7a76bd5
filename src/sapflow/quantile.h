// A quantile of sorted numbers.
#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace sapflow {

// Of rising values, at least one; `q` 0..1 of the way from the first to the last, on straight lines between neighbours.
[[nodiscard]] inline double quantile(const std::vector<double>& sorted, double q) {
  const double at = q * static_cast<double>(sorted.size() - 1);
  const auto low = static_cast<std::size_t>(at);
  return std::lerp(sorted[low], sorted[std::min(low + 1, sorted.size() - 1)], at - static_cast<double>(low));
}

}  // namespace sapflow
