#include "feeds/nws_stations.h"

#include <fmt/format.h>

#include <algorithm>

#include "feeds/declared_unit.h"
#include "feeds/geo_point.h"
#include "feeds/reply.h"
#include "feeds/text.h"

namespace feeds {
namespace {

using units::Result;

constexpr std::size_t most_stations = 5000, longest_id = 20, longest_name = 100;

bool is_id(std::string_view text) {
  const auto letter_or_digit = [](char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); };
  return !text.empty() && text.size() <= longest_id && std::all_of(text.begin(), text.end(), letter_or_digit);
}

Result<NwsStation> read_station(const JsonNode& feature) {
  const auto point = point_of(feature);
  if (!point) return tl::make_unexpected(point.error());
  const auto properties = feature.need("properties");
  if (!properties) return tl::make_unexpected(properties.error());
  const auto id = properties->need("stationIdentifier");
  if (!id) return tl::make_unexpected(id.error());
  if (!id->is_text() || !is_id(*id->text())) return tl::make_unexpected(id->fault("expected letters and digits, at most 20"));

  NwsStation station{std::string{*id->text()}, {}, point->latitude, point->longitude, std::nullopt};
  if (const auto called = properties->find("name"); called && called->is_text()) station.name = for_message(*called->text(), longest_name);
  const auto metres = properties->find_path("elevation.value"), unit = properties->find_path("elevation.unitCode");
  if (!metres || metres->is_null()) return station;
  if (!unit || !unit->is_text() || without_vocabulary(*unit->text()) != "m")
    return tl::make_unexpected((unit ? *unit : *properties->find("elevation")).fault("expected the unit m"));
  const auto value = metres->number();
  if (!value || *value < -430.0 || *value > 9000.0) return tl::make_unexpected(metres->fault("expected a number from -430 to 9000"));
  station.elevation = units::Metres{*value};
  return station;
}

}  // namespace

Result<std::vector<NwsStation>> read_nws_stations(const std::string& name, std::string_view content, const units::Site& place) {
  const auto document = parse_reply(name, content, "stations");
  if (!document) return tl::make_unexpected(document.error());
  const auto features = document->root().need("features");
  if (!features) return tl::make_unexpected(features.error());
  if (!features->is_array()) return tl::make_unexpected(features->fault("expected a list"));
  if (features->size() > most_stations)
    return units::fault(features->where(), fmt::format("{} stations", features->size()), fmt::format("expected at most {}", most_stations));

  std::vector<NwsStation> stations;
  for (std::size_t i = 0; i < features->size(); ++i) {
    auto station = read_station(features->item(i));
    if (!station) return tl::make_unexpected(station.error());
    stations.push_back(*std::move(station));
  }
  const auto away = [&place](const NwsStation& s) { return units::distance(place, {s.latitude, s.longitude, units::Metres{0.0}}).value; };
  std::stable_sort(stations.begin(), stations.end(), [&](const NwsStation& a, const NwsStation& b) { return away(a) < away(b); });
  return stations;
}

}  // namespace feeds
