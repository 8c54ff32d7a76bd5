// US National Weather Service, /points/{lat},{lon}: which grid cell, zones and stations belong to a place.
//
// The mapping changes without notice: it is worth asking again after a few days and whenever the grid answers 404. The grid is named by
// gridId, which is not everywhere the office that issues the forecast (cwa).
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "units/fault.h"

namespace feeds {

// Addresses are told as the service wrote them; whoever fetches them checks host and scheme first.
struct NwsPoint {
  std::string grid_id;
  int grid_x = 0, grid_y = 0;                    // 0..9999
  std::string forecast_grid_url;                 // forecastGridData
  std::optional<std::string> stations_url;       // observationStations
  std::optional<std::string> time_zone;          // IANA name, as told
  std::optional<std::string> county_url;         // county
  std::optional<std::string> forecast_zone_url;  // forecastZone
};

// `name` is how faults call the reply. Faults: those of parse_reply; gridId, gridX, gridY (number or text) or forecastGridData missing
// or not what they should be; a text longer than 300 bytes or with control characters. Optional members: null or absent is empty.
[[nodiscard]] units::Result<NwsPoint> read_nws_point(const std::string& name, std::string_view content);

}  // namespace feeds
