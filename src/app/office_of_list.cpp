#include "app/office_of_list.h"

#include <algorithm>
#include <set>

namespace app {

std::optional<OfficeSites> office_of_list(const Common& common, const OfficeRequest& request, const TreeList& list,
                                          const std::vector<units::Site>& wanted, Outcome& outcome) {
  // A cell is made of all its trees, whether asked about or not, so that its address stays the same.
  std::set<sources::Cell> cells;
  for (const units::Site& site : wanted) cells.insert(sources::cell_of(site));
  std::vector<sources::PlacedSite> sites;
  for (const auto& placed : list.sites)
    if (cells.contains(sources::cell_of(placed.site))) sites.push_back(placed);
  // A tree that stands apart from its site's place.
  for (const auto& row : list.file.trees)
    if (cells.contains(sources::cell_of(row.site)) &&
        std::ranges::none_of(sites, [&](const auto& placed) { return sources::cell_of(placed.site) == sources::cell_of(row.site); }))
      sites.push_back({row.site, row.zone});
  const auto weather = office_weather(common, request, sites, outcome);
  if (!weather) return std::nullopt;
  tell_troubles(*weather, outcome);
  return OfficeSites{*weather, common.now, std::chrono::hours{static_cast<long>(common.models.practice.decision.oldest_forecast_h)}};
}

}  // namespace app
