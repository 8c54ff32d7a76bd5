#include "feeds/nws_points.h"

#include <cmath>

#include "feeds/reply.h"
#include "feeds/text.h"

namespace feeds {
namespace {

using units::Result;

constexpr std::size_t longest_text = 300;

Result<std::string> plain_text(const JsonNode& node) {
  const auto text = node.text();
  if (!text) return tl::make_unexpected(text.error());
  // for_message changes nothing in a text that is short, valid and free of control characters.
  if (text->empty() || for_message(*text, longest_text) != *text)
    return tl::make_unexpected(node.fault("expected a text of 1 to 300 bytes without control characters"));
  return std::string{*text};
}

Result<std::string> needed_text(const JsonNode& properties, std::string_view key) {
  const auto node = properties.need(key);
  return node ? plain_text(*node) : tl::make_unexpected(node.error());
}

Result<void> optional_text(const JsonNode& properties, std::string_view key, std::optional<std::string>& into) {
  const auto node = properties.find(key);
  if (!node || node->is_null()) return {};
  auto text = plain_text(*node);
  if (!text) return tl::make_unexpected(text.error());
  into = *std::move(text);
  return {};
}

Result<int> grid_index(const JsonNode& properties, std::string_view key) {
  constexpr double most = 9999.0;
  const auto node = properties.need(key);
  if (!node) return tl::make_unexpected(node.error());
  std::optional<double> value;
  if (node->is_text())
    value = parse_number(*node->text());
  else if (const auto number = node->number())
    value = *number;
  if (!value || *value < 0.0 || *value > most || *value != std::floor(*value))
    return tl::make_unexpected(node->fault("expected a whole number from 0 to 9999"));
  return static_cast<int>(*value);
}

}  // namespace

Result<NwsPoint> read_nws_point(const std::string& name, std::string_view content) {
  const auto document = parse_reply(name, content, "the grid cell of a place");
  if (!document) return tl::make_unexpected(document.error());
  const auto properties = document->root().need("properties");
  if (!properties) return tl::make_unexpected(properties.error());

  auto grid_id = needed_text(*properties, "gridId");
  if (!grid_id) return tl::make_unexpected(grid_id.error());
  const auto x = grid_index(*properties, "gridX"), y = grid_index(*properties, "gridY");
  if (!x) return tl::make_unexpected(x.error());
  if (!y) return tl::make_unexpected(y.error());
  auto grid_url = needed_text(*properties, "forecastGridData");
  if (!grid_url) return tl::make_unexpected(grid_url.error());

  NwsPoint point;
  point.grid_id = *std::move(grid_id);
  point.grid_x = *x;
  point.grid_y = *y;
  point.forecast_grid_url = *std::move(grid_url);
  for (const auto& [key, into] : {std::pair{"observationStations", &point.stations_url}, std::pair{"timeZone", &point.time_zone},
                                  std::pair{"county", &point.county_url}, std::pair{"forecastZone", &point.forecast_zone_url}})
    if (auto ok = optional_text(*properties, key, *into); !ok) return tl::make_unexpected(ok.error());
  return point;
}

}  // namespace feeds
