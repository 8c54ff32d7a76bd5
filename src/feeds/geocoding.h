// Open-Meteo geocoding, /v1/search?name=...: places of a name. Data: GeoNames, CC BY 4.0.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/fault.h"
#include "units/quantity.h"

namespace feeds {

struct PlaceName {
  std::string name;  // may differ from what was asked for
  units::Degrees latitude, longitude;
  std::optional<std::string> admin1, country, zone;  // state or province; country; IANA zone as told
  std::optional<units::Metres> elevation;
  std::optional<double> population;
};

// The hits in the service's order, best first; no hit is an empty list (the reply then has no `results`). Texts are made fit for one
// line, at most 100 bytes. `name` is how faults call the reply. Faults: those of parse_reply; no reply of a search; more than 1000 hits; a
// hit without a name or a point on the globe; a member of the wrong type.
[[nodiscard]] units::Result<std::vector<PlaceName>> read_places(const std::string& name, std::string_view content);

}  // namespace feeds
