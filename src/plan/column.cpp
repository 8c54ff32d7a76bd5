#include "plan/column.h"

#include <algorithm>

namespace plan {

Column column_of(const Ground& ground, int slot, const Stops& stops) {
  Column column{slot, stops, -ground.travel_per_h() * ground.tour_h(ground.crew_of(slot), stops) - ground.extra(slot, stops), false};
  std::sort(column.stops.job.begin(), column.stops.job.begin() + stops.count);
  for (const int job : column.stops.jobs()) {
    column.value += ground.gain(job, slot);
    column.rig = column.rig || ground.rig(job);
  }
  return column;
}

bool Pool::add(const Column& column) {
  auto hash = static_cast<std::uint64_t>(column.slot) + 1;
  for (const int job : column.stops.jobs()) hash = hash * 1000003U + static_cast<std::uint64_t>(job) + 7;
  const auto [first, last] = by_hash_.equal_range(hash);
  const bool known = std::any_of(first, last, [&](const auto& entry) {
    const Column& other = columns_[entry.second];
    return other.slot == column.slot && std::ranges::equal(other.stops.jobs(), column.stops.jobs());
  });
  if (known) return false;
  by_hash_.emplace(hash, columns_.size());
  columns_.push_back(column);
  return true;
}

}  // namespace plan
