#include "feeds/read.h"

#include <fmt/format.h>

#include "feeds/json_node.h"
#include "feeds/met_norway.h"
#include "feeds/nws_grid.h"
#include "feeds/open_meteo.h"
#include "feeds/reply.h"
#include "feeds/station_csv.h"
#include "feeds/text.h"

namespace feeds {
namespace {

using units::Result;
using weather::Variable;
using Forecasts = std::vector<weather::Forecast>;

Result<Forecasts> read_json(const std::string& name, std::string_view content, const ReadOptions& options) {
  const auto document = JsonDocument::parse(name, content);
  if (!document) {
    // Sent by Open-Meteo inside a reply of status 200 when it fails half-way.
    const auto note = content.find("Unexpected error while streaming data");
    if (note == std::string_view::npos) return tl::make_unexpected(document.error());
    return units::fault(name, for_message(content.substr(note), 200), "expected a whole reply: the service broke off; ask again");
  }
  const JsonNode root = document->root();
  if (const auto said = service_error(root)) return units::fault(name, *said, "expected weather, not a service's error");
  if (is_open_meteo(root)) return read_open_meteo(root, options);
  if (is_met_norway(root)) return read_met_norway(root, options);
  if (is_nws_grid(root)) return read_nws_grid(root, options);
  return units::fault(name, "", "expected Open-Meteo, NWS raw grid or MET Norway JSON: this is none of them");
}

// Rounding makes a dew point a little higher than the temperature; more than this is a wrong column or a broken sensor.
void warn_of_dew_point(weather::Forecast& forecast) {
  constexpr double rounding_c = 1.0;
  const weather::Series& series = forecast.control;
  std::size_t count = 0, first = 0;
  for (std::size_t hour = 0; hour < series.hours(); ++hour) {
    const auto temperature = series.at(Variable::temperature, hour), dew_point = series.at(Variable::dew_point, hour);
    if (!temperature || !dew_point || *dew_point <= *temperature + rounding_c) continue;
    if (count++ == 0) first = hour;
  }
  if (count > 0)
    forecast.warnings.push_back(fmt::format("{}: dew point above temperature in {} hours, the first at {}", forecast.source, count,
                                            units::to_text(series.label(first))));
}

}  // namespace

Result<Forecasts> read_weather(const std::string& name, std::string_view content, const ReadOptions& options) {
  const auto text = reply_text(name, content, "JSON or CSV");
  if (!text) return tl::make_unexpected(text.error());
  const std::string_view start = *text;
  if (start.empty()) return units::fault(name, "", "empty: expected a weather file");
  const bool json = start.front() == '{' || start.front() == '[';
  auto forecasts = json ? read_json(name, content, options) : read_station_csv(name, content, options);
  if (forecasts)
    for (weather::Forecast& forecast : *forecasts) warn_of_dew_point(forecast);
  return forecasts;
}

}  // namespace feeds
