#include "days/shapley.h"

#include <bit>

namespace days {

std::vector<double> shapley(std::span<const double> worth) {
  const auto parts = static_cast<std::size_t>(std::countr_zero(worth.size()));
  // Chance that just `size` given others have joined before a part does: size! (n - 1 - size)! / n!, by recurrence.
  std::vector<double> weight(parts);
  for (std::size_t size = 0; size < parts; ++size)
    weight[size] =
        size == 0 ? 1.0 / static_cast<double>(parts) : weight[size - 1] * static_cast<double>(size) / static_cast<double>(parts - size);
  std::vector<double> shares(parts, 0.0);
  for (std::size_t set = 0; set < worth.size(); ++set)
    for (std::size_t part = 0; part < parts; ++part) {
      const std::size_t with = set | std::size_t{1} << part;
      if (with != set) shares[part] += weight[static_cast<std::size_t>(std::popcount(set))] * (worth[with] - worth[set]);
    }
  return shares;
}

}  // namespace days
