// A point as GeoJSON writes it (RFC 7946, section 3.1.1): longitude first.
#pragma once
#include "feeds/json_node.h"
#include "units/quantity.h"

namespace feeds {

struct GeoPoint {
  units::Degrees latitude, longitude;
};

// The coordinates of a feature with a Point. Fault: no geometry.coordinates of two numbers on the globe.
[[nodiscard]] units::Result<GeoPoint> point_of(const JsonNode& feature);

// Latitude and longitude that stand side by side as two members. Fault: one is missing, no number or not on the globe.
[[nodiscard]] units::Result<GeoPoint> point_of_members(const JsonNode& node);

}  // namespace feeds
