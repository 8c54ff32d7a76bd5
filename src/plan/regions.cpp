#include "plan/regions.h"

#include <algorithm>
#include <cmath>

namespace plan {

std::vector<std::vector<int>> regions(const Ground& ground, int size) {
  const auto& crews = ground.instance().crews;
  std::vector<int> left;
  for (int crew = 0; crew < static_cast<int>(crews.size()); ++crew) left.push_back(crew);
  const auto depot = [&](int crew) { return crews[static_cast<std::size_t>(crew)].depot; };
  std::vector<std::vector<int>> groups;
  while (!left.empty()) {
    // From the edge inwards, so that no crews are stranded between groups.
    const Point from = depot(*std::ranges::min_element(left, {}, [&](int crew) { return depot(crew).x_km + 0.5 * depot(crew).y_km; }));
    std::ranges::stable_sort(left, {}, [&](int crew) { return std::hypot(depot(crew).x_km - from.x_km, depot(crew).y_km - from.y_km); });
    std::vector<int> group;
    std::size_t taken = 0;
    while (taken < left.size() && static_cast<int>(group.size()) < size) {
      for (int day = 0; day < ground.instance().days; ++day) {
        const int slot = ground.slot_of({day, left[taken]});
        if (ground.slot_hours(slot) > 0.0 || ground.locked_in(slot).count > 0) group.push_back(slot);
      }
      ++taken;
    }
    left.erase(left.begin(), left.begin() + static_cast<std::ptrdiff_t>(taken));
    std::ranges::sort(left);
    std::ranges::sort(group);
    if (groups.empty() || static_cast<int>(group.size()) >= size / 2)
      groups.push_back(std::move(group));
    else
      groups.back().insert(groups.back().end(), group.begin(), group.end());
  }
  return groups;
}

}  // namespace plan
