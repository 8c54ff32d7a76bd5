#include "feeds/rain_stations.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "feeds/reply.h"

namespace feeds {
namespace {

constexpr std::size_t most_stations = 5'000, longest_id = 20;

bool is_id(std::string_view text) {
  const auto letter_or_digit = [](char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); };
  return !text.empty() && text.size() <= longest_id && std::ranges::all_of(text, letter_or_digit);
}

// [longitude, latitude] as a list on its own.
std::optional<RainStation> at(const std::optional<JsonNode>& coordinates) {
  if (!coordinates || !coordinates->is_array() || coordinates->size() < 2) return std::nullopt;
  const auto east = coordinates->item(0).number(), north = coordinates->item(1).number();
  if (!east || !north || !(std::abs(*east) <= 180.0) || !(std::abs(*north) <= 90.0)) return std::nullopt;
  return RainStation{{}, units::Degrees{*north}, units::Degrees{*east}};
}

std::optional<RainStation> read_result(const JsonNode& result) {
  const auto list = result.find("stations");
  if (!list || !list->is_array() || list->size() == 0) return std::nullopt;
  const auto id = list->item(0).find("id");
  if (!id || !id->is_text()) return std::nullopt;
  std::string_view name = *id->text();
  name = name.substr(name.find(':') + 1);
  auto station = at(list->item(0).find("coordinates"));
  if (const auto points = result.find("boundingPoints"); !station && points && points->is_array() && points->size() > 0)
    station = at(points->item(0).find("coordinates"));
  if (!station || !is_id(name)) return std::nullopt;
  station->id = name;
  return station;
}

}  // namespace

units::Result<std::vector<RainStation>> read_rain_stations(const std::string& name, std::string_view content, const units::Site& place) {
  const auto document = parse_reply(name, content, "stations");
  if (!document) return tl::make_unexpected(document.error());
  const auto results = document->root().need("results");
  if (!results) return tl::make_unexpected(results.error());
  if (!results->is_array() || results->size() > most_stations)
    return tl::make_unexpected(results->fault(fmt::format("expected a list of at most {} stations", most_stations)));
  std::vector<RainStation> stations;
  for (std::size_t i = 0; i < results->size(); ++i)
    if (auto station = read_result(results->item(i))) stations.push_back(std::move(*station));
  std::ranges::stable_sort(stations, {}, [&](const RainStation& s) {
    return units::distance(place, {s.latitude, s.longitude, units::Metres{0.0}}).value;
  });
  return stations;
}

}  // namespace feeds
