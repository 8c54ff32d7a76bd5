#include "sources/cell.h"

#include <fmt/format.h>

#include <cmath>
#include <map>

namespace sources {

std::string Cell::text() const { return fmt::format("{:.2f},{:.2f}", latitude_deg(), longitude_deg()); }

Cell cell_of(const units::Site& site) {
  return {static_cast<int>(std::lround(site.latitude.value * 20.0)), static_cast<int>(std::lround(site.longitude.value * 20.0))};
}

std::vector<CellSite> cells_of(const std::vector<PlacedSite>& sites) {
  struct Sum {
    double elevation_m = 0.0;
    int count = 0;
    std::string zone;
  };
  std::map<Cell, Sum> sums;
  for (const PlacedSite& placed : sites) {
    Sum& sum = sums[cell_of(placed.site)];
    if (sum.count == 0 || placed.zone < sum.zone) sum.zone = placed.zone;
    sum.elevation_m += placed.site.elevation.value;
    ++sum.count;
  }
  std::vector<CellSite> cells;
  for (const auto& [cell, sum] : sums)
    cells.push_back({cell, units::Metres{50.0 * std::round(sum.elevation_m / sum.count / 50.0)}, sum.zone});
  return cells;
}

}  // namespace sources
