#include "feeds/stations.h"

#include <algorithm>
#include <cmath>

#include "feeds/json_node.h"
#include "feeds/text.h"

namespace feeds {
namespace {

constexpr std::size_t most_stations = 5'000;

bool is_id(std::string_view text) {
  return !text.empty() && text.size() <= 20 && std::ranges::all_of(text, [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  });
}

// [longitude, latitude, ...] of GeoJSON.
std::optional<units::Site> site_of(const std::optional<JsonNode>& coordinates) {
  if (!coordinates || !coordinates->is_array() || coordinates->size() < 2) return std::nullopt;
  const auto east = coordinates->item(0).number(), north = coordinates->item(1).number();
  if (!east || !north || !(std::abs(*east) <= 180.0) || !(std::abs(*north) <= 90.0)) return std::nullopt;
  return units::Site{units::Degrees{*north}, units::Degrees{*east}, units::Metres{0.0}};
}

std::string text_of(const std::optional<JsonNode>& node) { return node && node->is_text() ? std::string{*node->text()} : std::string{}; }

units::Result<JsonNode> list(const JsonDocument& document, std::string_view key) {
  auto found = document.root().need(key);
  if (!found) return found;
  if (!found->is_array() || found->size() > most_stations) return tl::make_unexpected(found->fault("expected a list of stations"));
  return found;
}

}  // namespace

units::Result<std::vector<Station>> read_nws_stations(const std::string& name, std::string_view content) {
  const auto document = JsonDocument::parse(name, content);
  if (!document) return tl::make_unexpected(document.error());
  const auto features = list(*document, "features");
  if (!features) return tl::make_unexpected(features.error());
  std::vector<Station> stations;
  for (std::size_t i = 0; i < features->size(); ++i) {
    const JsonNode feature = features->item(i);
    const std::string id = text_of(feature.find_path("properties.stationIdentifier"));
    const auto site = site_of(feature.find_path("geometry.coordinates"));
    if (site && is_id(id)) stations.push_back({id, for_message(text_of(feature.find_path("properties.name"))), *site});
  }
  return stations;
}

units::Result<std::vector<Station>> read_rain_stations(const std::string& name, std::string_view content) {
  const auto document = JsonDocument::parse(name, content);
  if (!document) return tl::make_unexpected(document.error());
  const auto results = list(*document, "results");
  if (!results) return tl::make_unexpected(results.error());
  std::vector<Station> stations;
  for (std::size_t i = 0; i < results->size(); ++i) {
    const JsonNode result = results->item(i);
    const auto list = result.find("stations");
    if (!list || !list->is_array() || list->size() == 0) continue;
    const JsonNode station = list->item(0);
    std::string id = text_of(station.find("id"));
    if (const auto colon = id.find(':'); colon != std::string::npos) id = id.substr(colon + 1);
    auto site = site_of(station.find("coordinates"));
    if (const auto points = result.find("boundingPoints"); !site && points && points->is_array() && points->size() > 0)
      site = site_of(points->item(0).find("coordinates"));
    if (site && is_id(id)) stations.push_back({id, for_message(text_of(station.find("name"))), *site});
  }
  return stations;
}

}  // namespace feeds
