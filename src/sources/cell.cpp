#include "sources/cell.h"

#include <fmt/format.h>

#include <cmath>
#include <map>

namespace sources {

std::string Cell::text() const { return fmt::format("{:.2f},{:.2f}", latitude_deg(), longitude_deg()); }

Cell cell_of(const units::Site& site) {
  return {static_cast<int>(std::lround(site.latitude.value * 20.0)), static_cast<int>(std::lround(site.longitude.value * 20.0))};
}

std::vector<CellSite> cells_of(const std::vector<units::Site>& sites) {
  std::map<Cell, std::pair<double, int>> sums;
  for (const units::Site& site : sites) {
    auto& [sum_m, count] = sums[cell_of(site)];
    sum_m += site.elevation.value;
    ++count;
  }
  std::vector<CellSite> cells;
  for (const auto& [cell, sum] : sums) cells.push_back({cell, units::Metres{std::round(sum.first / sum.second)}});
  return cells;
}

}  // namespace sources
