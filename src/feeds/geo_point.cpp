#include "feeds/geo_point.h"

#include <cmath>

namespace feeds {
namespace {

units::Result<GeoPoint> checked(const JsonNode& lat, const JsonNode& lon) {
  const auto latitude = lat.number(), longitude = lon.number();
  if (!latitude || std::abs(*latitude) > 90.0) return tl::make_unexpected(lat.fault("expected a latitude from -90 to 90"));
  if (!longitude || std::abs(*longitude) > 180.0) return tl::make_unexpected(lon.fault("expected a longitude from -180 to 180"));
  return GeoPoint{units::Degrees{*latitude}, units::Degrees{*longitude}};
}

}  // namespace

units::Result<GeoPoint> point_of(const JsonNode& feature) {
  const auto geometry = feature.need("geometry");
  if (!geometry) return tl::make_unexpected(geometry.error());
  const auto coordinates = geometry->need("coordinates");
  if (!coordinates) return tl::make_unexpected(coordinates.error());
  if (!coordinates->is_array() || coordinates->size() < 2)
    return tl::make_unexpected(coordinates->fault("expected longitude and latitude"));
  return checked(coordinates->item(1), coordinates->item(0));
}

units::Result<GeoPoint> point_of_members(const JsonNode& node) {
  const auto latitude = node.need("latitude"), longitude = node.need("longitude");
  if (!latitude) return tl::make_unexpected(latitude.error());
  if (!longitude) return tl::make_unexpected(longitude.error());
  return checked(*latitude, *longitude);
}

}  // namespace feeds
