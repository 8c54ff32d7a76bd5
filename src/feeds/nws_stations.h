// US National Weather Service, the list of stations that answers the address in observationStations: who measures near a place.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/fault.h"
#include "units/quantity.h"
#include "units/site.h"

namespace feeds {

struct NwsStation {
  std::string id;    // "KFLL", as observations are asked for
  std::string name;  // may be empty
  units::Degrees latitude, longitude;
  std::optional<units::Metres> elevation;
};

// The stations, nearest to `place` first (the service sorts by its own grid, or not at all); none is an empty list. `name` is how faults
// call the reply. Faults: those of parse_reply; no `features` list, or more than 5000 in it; a station without stationIdentifier (letters
// and digits, at most 20) or without a point on the globe; an elevation in a unit other than metres.
[[nodiscard]] units::Result<std::vector<NwsStation>> read_nws_stations(const std::string& name, std::string_view content,
                                                                       const units::Site& place);

}  // namespace feeds
