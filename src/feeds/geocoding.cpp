#include "feeds/geocoding.h"

#include <fmt/format.h>

#include "feeds/geo_point.h"
#include "feeds/reply.h"
#include "feeds/text.h"

namespace feeds {
namespace {

using units::Result;

constexpr std::size_t most_places = 1000, longest_text = 100;

Result<std::optional<std::string>> text_of(const JsonNode& hit, std::string_view key) {
  const auto node = hit.find(key);
  if (!node || node->is_null()) return std::optional<std::string>{};
  const auto text = node->text();
  if (!text) return tl::make_unexpected(text.error());
  return std::optional{for_message(*text, longest_text)};
}

Result<std::optional<double>> number_of(const JsonNode& hit, std::string_view key, double lowest, double highest) {
  const auto node = hit.find(key);
  if (!node || node->is_null()) return std::optional<double>{};
  const auto number = node->number();
  if (!number) return tl::make_unexpected(number.error());
  if (*number < lowest || *number > highest)
    return tl::make_unexpected(node->fault(fmt::format("expected a number from {} to {}", lowest, highest)));
  return std::optional{*number};
}

Result<PlaceName> read_place(const JsonNode& hit) {
  const auto called = hit.need("name");
  if (!called) return tl::make_unexpected(called.error());
  const auto text = called->text();
  if (!text) return tl::make_unexpected(text.error());
  const auto point = point_of_members(hit);
  if (!point) return tl::make_unexpected(point.error());
  const auto elevation = number_of(hit, "elevation", -500.0, 9000.0);
  const auto population = number_of(hit, "population", 0.0, 1e10);
  const auto admin1 = text_of(hit, "admin1"), country = text_of(hit, "country"), zone = text_of(hit, "timezone");
  for (const auto* number : {&elevation, &population})
    if (!*number) return tl::make_unexpected(number->error());
  for (const auto* word : {&admin1, &country, &zone})
    if (!*word) return tl::make_unexpected(word->error());
  PlaceName place{for_message(*text, longest_text), point->latitude, point->longitude, *admin1, *country, *zone, std::nullopt, *population};
  if (*elevation) place.elevation = units::Metres{**elevation};
  return place;
}

}  // namespace

Result<std::vector<PlaceName>> read_places(const std::string& name, std::string_view content) {
  const auto document = parse_reply(name, content, "places");
  if (!document) return tl::make_unexpected(document.error());
  std::vector<PlaceName> places;
  const auto results = document->root().find("results");
  if (!results) {
    if (!document->root().find("generationtime_ms")) return tl::make_unexpected(document->root().need("results").error());
    return places;
  }
  if (!results->is_array()) return tl::make_unexpected(results->fault("expected a list"));
  if (results->size() > most_places)
    return units::fault(results->where(), fmt::format("{} places", results->size()), fmt::format("expected at most {}", most_places));
  for (std::size_t i = 0; i < results->size(); ++i) {
    auto place = read_place(results->item(i));
    if (!place) return tl::make_unexpected(place.error());
    places.push_back(*std::move(place));
  }
  return places;
}

}  // namespace feeds
