// Which stations of NCEI's daily archive lie in a box: reply of its search service for dataset daily-summaries,
// https://www.ncei.noaa.gov/access/services/search/v1/data?dataset=daily-summaries&bbox=north,west,south,east&...
// results[].stations[].id with coordinates there or as boundingPoints: read in published clients' code, not tried live. An id may begin
// "GHCND:", which the data service (feeds/daily_rain.h) does not want.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "units/fault.h"
#include "units/quantity.h"
#include "units/site.h"

namespace feeds {

struct RainStation {
  std::string id;  // letters and digits: it becomes part of an address
  units::Degrees latitude, longitude;
};

// Nearest to `place` first; none is an empty list. A result without id or place is left out. Faults: those of parse_reply; no `results`
// list, or more than 5000 in it.
[[nodiscard]] units::Result<std::vector<RainStation>> read_rain_stations(const std::string& name, std::string_view content,
                                                                         const units::Site& place);

}  // namespace feeds
