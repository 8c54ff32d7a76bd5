// Sites that share their weather: a square of a twentieth of a degree, about as wide as the services' own grids. One cell, one call.
#pragma once
#include <compare>
#include <string>
#include <vector>

#include "units/site.h"

namespace sources {

// In twentieths of a degree, rounded; the square's middle is the place that services are asked about.
struct Cell {
  int north = 0, east = 0;

  friend auto operator<=>(const Cell&, const Cell&) = default;
  [[nodiscard]] double latitude_deg() const { return north / 20.0; }
  [[nodiscard]] double longitude_deg() const { return east / 20.0; }
  // "43.70,-91.90": two decimals whatever the locale, for addresses and file names.
  [[nodiscard]] std::string text() const;
};

[[nodiscard]] Cell cell_of(const units::Site& site);

// A site and the zone whose clock it keeps (IANA name).
struct PlacedSite {
  units::Site site;
  std::string zone;
};

// A cell with its sites' mean elevation, to the next 50 m so that one tree more changes no address, and the clock of the first of them by
// the alphabet.
struct CellSite {
  Cell cell;
  units::Metres elevation;
  std::string zone;
  [[nodiscard]] units::Site site() const { return {units::Degrees{cell.latitude_deg()}, units::Degrees{cell.longitude_deg()}, elevation}; }
};

// Each cell once, from south to north and west to east: the same list for the same sites in any order.
[[nodiscard]] std::vector<CellSite> cells_of(const std::vector<PlacedSite>& sites);

}  // namespace sources
