#include "generator/nws_grid.h"

#include <date/date.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

namespace samples {
namespace {

using Hours = std::vector<Hour>;
using Text = std::function<std::string(const Hours&, std::size_t)>;

std::string duration(std::size_t hours) {
  const std::size_t days = hours / 24;
  const std::size_t rest = hours % 24;
  if (days == 0) return fmt::format("PT{}H", rest);
  return rest == 0 ? fmt::format("P{}D", days) : fmt::format("P{}DT{}H", days, rest);
}

std::string interval(UtcHour from, std::size_t hours) {
  return fmt::format("{}/{}", date::format("%FT%T+00:00", std::chrono::sys_seconds{from}), duration(hours));
}

std::string entry(UtcHour from, std::size_t hours, const std::string& value) {
  return fmt::format("\n  {{\"validTime\": \"{}\", \"value\": {}}}", interval(from, hours), value);
}

std::string layer(const std::string& name, const std::string& uom, const std::vector<std::string>& entries = {}) {
  const std::string unit = uom.empty() ? "" : fmt::format("\"uom\": \"{}\", ", uom);
  return fmt::format(",\n \"{}\": {{{}\"values\": [{}]}}", name, unit, fmt::join(entries, ","));
}

// A value that holds: equal neighbours are joined to one interval.
std::string merged(const std::string& name, const std::string& uom, const Hours& hours, std::size_t count, const Text& text) {
  std::vector<std::string> entries;
  for (std::size_t from = 0; from < count;) {
    const std::string value = text(hours, from);
    std::size_t until = from + 1;
    while (until < count && text(hours, until) == value) ++until;
    entries.push_back(entry(hours[from].label, until - from, value));
    from = until;
  }
  return layer(name, uom, entries);
}

// Totals over six hours that end at 00, 06, 12 and 18 UTC; never merged.
std::string totals(const std::string& name, const Hours& hours, std::size_t count) {
  std::vector<std::string> entries;
  for (std::size_t from = 0; from < count;) {
    std::size_t until = from + 1;
    while (until < count && hours[until].label.time_since_epoch().count() % 6 != 0) ++until;
    double total_mm = 0.0;
    for (std::size_t i = from + 1; i <= until && i < hours.size(); ++i) total_mm += hours[i].rain_mm;
    const double hundredths_of_inch = std::round(total_mm / 0.254);
    entries.push_back(entry(hours[from].label, until - from, fmt::format("{}", hundredths_of_inch * 0.254)));
    from = until;
  }
  return layer(name, "wmoUnit:mm", entries);
}

// The office works in whole degrees Fahrenheit, knots and percents, and the grid is converted from them.
std::string fahrenheit_steps(double temp_c) { return fmt::format("{}", (std::round(1.8 * temp_c + 32.0) - 32.0) / 1.8); }
std::string knot_steps(double wind_m_s) { return fmt::format("{}", std::round(wind_m_s / 0.514444) * 1.852); }
std::string whole(double value) { return fmt::format("{:.0f}", value); }

std::string sky_event(const std::string& coverage, const std::string& weather, const std::string& intensity, const std::string& attribute) {
  const auto quoted = [](const std::string& word) { return word.empty() ? std::string{"null"} : fmt::format("\"{}\"", word); };
  return fmt::format(
      "{{\"coverage\": {}, \"weather\": {}, \"intensity\": {}, \"visibility\": {{\"unitCode\": \"wmoUnit:km\", \"value\": null}}, "
      "\"attributes\": [{}]}}",
      quoted(coverage), quoted(weather), quoted(intensity), attribute.empty() ? "" : quoted(attribute));
}

std::string weather_of(const Hours& hours, std::size_t i) {
  const Hour& next = hours[std::min(i + 1, hours.size() - 1)];  // the interval starts at i, its rain is labelled i + 1
  if (next.rain_mm < 0.05) return fmt::format("[{}]", sky_event("", "", "", ""));
  const std::string intensity = next.rain_mm < 2.5 ? "light" : next.rain_mm < 7.6 ? "moderate" : "heavy";
  const std::string rain = sky_event(next.rain_chance_pct > 70.0 ? "likely" : "chance", "rain_showers", intensity, "");
  if (!next.thunder) return fmt::format("[{}]", rain);
  return fmt::format("[{}, {}]", rain, sky_event("scattered", "thunderstorms", "", "gusty_wind"));
}

// One value a day or night, over a window of 13 or 14 hours, so that the layer has gaps.
std::string extremes(const std::string& name, const Hours& hours, std::size_t start_utc_h, std::size_t window_h, bool highest) {
  std::vector<std::string> entries;
  for (std::size_t from = 0; from + window_h < hours.size(); ++from) {
    if (static_cast<std::size_t>(hours[from].label.time_since_epoch().count() % 24) != start_utc_h) continue;
    double extreme_c = hours[from].temp_c;
    for (std::size_t i = from; i <= from + window_h; ++i)
      extreme_c = highest ? std::max(extreme_c, hours[i].temp_c) : std::min(extreme_c, hours[i].temp_c);
    entries.push_back(entry(hours[from].label, window_h, fahrenheit_steps(extreme_c)));
  }
  return layer(name, "wmoUnit:degC", entries);
}

std::string head(const Story& story, const Hours& hours, UtcHour updated) {
  const double lat = story.place.lat;
  const double lon = story.place.lon;
  return fmt::format(
      "{{\n\"type\": \"Feature\",\n\"geometry\": {{\"type\": \"Polygon\", \"coordinates\": [[[{:.4f}, {:.4f}], [{:.4f}, {:.4f}], "
      "[{:.4f}, {:.4f}], [{:.4f}, {:.4f}], [{:.4f}, {:.4f}]]]}},\n"
      "\"properties\": {{\n \"@type\": \"wx:Gridpoint\",\n \"updateTime\": \"{}\",\n \"validTimes\": \"{}\",\n"
      " \"elevation\": {{\"unitCode\": \"wmoUnit:m\", \"value\": {:.4f}}},\n \"gridId\": \"XYZ\",\n \"gridX\": \"31\",\n \"gridY\": \"47\"",
      lon - 0.015, lat - 0.011, lon - 0.015, lat + 0.011, lon + 0.015, lat + 0.011, lon + 0.015, lat - 0.011, lon - 0.015, lat - 0.011,
      date::format("%FT%T+00:00", std::chrono::sys_seconds{updated} + std::chrono::minutes{29}),
      interval(hours.front().label, hours.size()), story.place.elevation_m);
}

}  // namespace

std::string nws_grid(const Story& story, const Hours& hours, UtcHour updated) {
  const std::size_t all = hours.size();
  std::string text = head(story, hours, updated);
  text += merged("temperature", "wmoUnit:degC", hours, all, [](const Hours& h, std::size_t i) { return fahrenheit_steps(h[i].temp_c); });
  text += merged("dewpoint", "wmoUnit:degC", hours, all, [](const Hours& h, std::size_t i) { return fahrenheit_steps(h[i].dew_point_c); });
  // Windows in the hours of the eastern states: 7 am to 8 pm, and 7 pm to 9 am.
  text += extremes("maxTemperature", hours, 12, 13, true);
  text += extremes("minTemperature", hours, 0, 14, false);
  text += merged("relativeHumidity", "wmoUnit:percent", hours, all - 3, [](const Hours& h, std::size_t i) { return whole(h[i].rh_pct); });
  text += merged("windChill", "wmoUnit:degC", hours, all, [](const Hours&, std::size_t) { return std::string{"null"}; });
  // The office left three hours of one night without a sky.
  text += merged("skyCover", "wmoUnit:percent", hours, all,
                 [](const Hours& h, std::size_t i) { return i >= 98 && i < 101 ? std::string{"null"} : whole(h[i].cloud_pct); });
  text += merged("windDirection", "wmoUnit:degree_(angle)", hours, all,
                 [](const Hours& h, std::size_t i) { return whole(10.0 * std::round(h[i].wind_from_deg / 10.0)); });
  text += merged("windSpeed", "wmoUnit:km_h-1", hours, all, [](const Hours& h, std::size_t i) { return knot_steps(h[i].wind_m_s); });
  text += merged("windGust", "wmoUnit:km_h-1", hours, all - 12, [](const Hours& h, std::size_t i) { return knot_steps(h[i].gust_m_s); });
  text += merged("weather", "", hours, all - 1, weather_of);
  text += layer("hazards", "");
  text += merged("probabilityOfPrecipitation", "wmoUnit:percent", hours, all - 1, [](const Hours& h, std::size_t i) {
    // One figure for the six hours from 00, 06, 12 or 18 UTC that hour i lies in.
    const auto into = static_cast<std::size_t>(h[i].label.time_since_epoch().count() % 6);
    double chance = 0.0;
    for (std::size_t k = i < into ? 1 : i - into + 1; k <= i - into + 6 && k < h.size(); ++k)
      chance = std::max(chance, h[k].rain_chance_pct);
    return whole(chance);
  });
  text += totals("quantitativePrecipitation", hours, all - 25);
  text += layer("snowfallAmount", "wmoUnit:mm");
  text += merged("probabilityOfThunder", "", hours, all - 61, [](const Hours& h, std::size_t i) {
    return std::string{h[i + 1].thunder ? "45" : h[i + 1].rain_mm > 0.05 ? "8" : "0"};
  });
  text += layer("lightningActivityLevel", "");
  text += layer("pressure", "");
  return text + "\n}\n}\n";
}

}  // namespace samples
