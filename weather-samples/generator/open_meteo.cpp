#include "generator/open_meteo.h"

#include <fmt/format.h>

#include <functional>

namespace samples {
namespace {

struct Column {
  std::string name;
  std::string unit;
  int decimals;
  std::function<double(const Hour&)> value;
  bool kept_for_the_past = true;
};

int weather_code(const Hour& hour) {
  if (hour.thunder) return 95;
  if (hour.rain_mm >= 0.05) {
    if (hour.temp_c < 0.8) return hour.rain_mm < 1.0 ? 71 : 73;
    if (hour.rain_mm < 0.3) return 51;
    return hour.rain_mm < 2.5 ? 61 : hour.rain_mm < 7.6 ? 63 : 65;
  }
  if (hour.rh_pct > 98.0 && hour.wind_m_s < 1.3) return 45;
  return hour.cloud_pct < 12.5 ? 0 : hour.cloud_pct < 37.5 ? 1 : hour.cloud_pct < 75.0 ? 2 : 3;
}

std::vector<Column> air_columns(WindUnit wind_unit) {
  const bool metric_seconds = wind_unit == WindUnit::metres_per_second;
  const std::string speed = metric_seconds ? "m/s" : "km/h";
  const double factor = metric_seconds ? 1.0 : 3.6;
  return {
      {"temperature_2m", "°C", 1, [](const Hour& h) { return h.temp_c; }},
      {"relative_humidity_2m", "%", 0, [](const Hour& h) { return h.rh_pct; }},
      {"dew_point_2m", "°C", 1, [](const Hour& h) { return h.dew_point_c; }},
      {"precipitation", "mm", 2, [](const Hour& h) { return h.rain_mm; }},
      {"cloud_cover", "%", 0, [](const Hour& h) { return h.cloud_pct; }},
      {"shortwave_radiation", "W/m²", 1, [](const Hour& h) { return h.shortwave_w_m2; }},
      {"wind_speed_10m", speed, metric_seconds ? 2 : 1, [factor](const Hour& h) { return factor * h.wind_m_s; }},
      {"wind_gusts_10m", speed, 1, [factor](const Hour& h) { return factor * h.gust_m_s; }},
      {"surface_pressure", "hPa", 1, [](const Hour& h) { return h.station_hpa; }},
      {"weather_code", "wmo code", 0, [](const Hour& h) { return static_cast<double>(weather_code(h)); }},
  };
}

std::vector<Column> forecast_columns(WindUnit wind_unit) {
  std::vector<Column> columns = air_columns(wind_unit);
  columns.push_back({"precipitation_probability", "%", 0, [](const Hour& h) { return h.rain_chance_pct; }, false});
  const std::array<std::string, 4> layers{"0_to_10cm", "10_to_40cm", "40_to_100cm", "100_to_200cm"};
  for (std::size_t layer = 0; layer < layers.size(); ++layer)
    columns.push_back({"soil_moisture_" + layers[layer], "m³/m³", 3, [layer](const Hour& h) { return h.soil_m3_m3[layer]; }});
  for (std::size_t layer = 0; layer < layers.size(); ++layer)
    columns.push_back({"soil_temperature_" + layers[layer], "°C", 1, [layer](const Hour& h) { return h.soil_c[layer]; }});
  return columns;
}

std::string head(const Story& story) {
  // The service answers for the centre of its grid cell, not for the point asked.
  return fmt::format(
      "{{\n\"latitude\":{:.4f},\"longitude\":{:.4f},\"generationtime_ms\":1.5,\"utc_offset_seconds\":0,\"timezone\":\"GMT\","
      "\"timezone_abbreviation\":\"GMT\",\"elevation\":{:.1f},\n",
      story.place.lat + 0.0137, story.place.lon - 0.0112, story.place.elevation_m);
}

std::string row(const std::vector<Hour>& hours, const std::function<std::string(const Hour&)>& cell) {
  std::string text = "[";
  for (const Hour& hour : hours) {
    if (text.size() > 1) text += ',';
    text += cell(hour);
  }
  return text + "]";
}

std::string number(double value, int decimals) {
  const std::string text = fmt::format("{:.{}f}", value, decimals);
  return text.find_first_not_of("-0.") == std::string::npos && text.front() == '-' ? text.substr(1) : text;
}

struct Written {
  std::string name, unit, cells;
};

std::string body(const Story& story, const std::vector<Hour>& hours, const std::vector<Written>& columns) {
  std::string units = "\"hourly_units\":{\"time\":\"unixtime\"";
  std::string data = fmt::format("\"hourly\":{{\n\"time\":{}", row(hours, [](const Hour& hour) {
                                   return fmt::format("{}", std::chrono::seconds{hour.label.time_since_epoch()}.count());
                                 }));
  for (const Written& column : columns) {
    units += fmt::format(",\"{}\":\"{}\"", column.name, column.unit);
    data += fmt::format(",\n\"{}\":{}", column.name, column.cells);
  }
  return head(story) + units + "},\n" + data + "}\n}\n";
}

}  // namespace

std::string open_meteo_forecast(const Story& story, const std::vector<Hour>& hours, const OpenMeteoOptions& options) {
  const UtcHour empty_from = hours.back().label - std::chrono::hours{options.last_day_empty ? 23 : -1};
  std::vector<Written> written;
  for (const Column& column : forecast_columns(options.wind_unit)) {
    const auto cell = [&](const Hour& hour) -> std::string {
      if (hour.label >= empty_from || (!column.kept_for_the_past && hour.label <= story.now)) return "null";
      return number(column.value(hour), column.decimals);
    };
    written.push_back({column.name, column.unit, row(hours, cell)});
  }
  return body(story, hours, written);
}

std::string open_meteo_ensemble(const Story& story, const std::vector<std::vector<Hour>>& members) {
  std::vector<Written> written;
  for (const Column& column : air_columns(WindUnit::metres_per_second))
    for (std::size_t member = 0; member < members.size(); ++member)
      written.push_back({member == 0 ? column.name : fmt::format("{}_member{:02}", column.name, member), column.unit,
                         row(members[member], [&](const Hour& hour) { return number(column.value(hour), column.decimals); })});
  return body(story, members.front(), written);
}

}  // namespace samples
