#include "generator/met_forecast.h"

#include <date/date.h>
#include <fmt/format.h>

#include <algorithm>

namespace samples {
namespace {

using Hours = std::vector<Hour>;
constexpr std::size_t shortest_hourly_part = 50;

std::string stamp(UtcHour label) { return date::format("%FT%TZ", std::chrono::sys_seconds{label}); }

double rain_after(const Hours& hours, std::size_t at, std::size_t span) {
  double sum_mm = 0.0;
  for (std::size_t i = at + 1; i <= at + span; ++i) sum_mm += hours[i].rain_mm;
  return sum_mm;
}

std::string symbol(const Hours& hours, std::size_t at, std::size_t span) {
  double cloud_pct = 0.0;
  double sun_w_m2 = 0.0;
  bool thunder = false;
  for (std::size_t i = at + 1; i <= at + span; ++i) {
    cloud_pct += hours[i].cloud_pct / static_cast<double>(span);
    sun_w_m2 += hours[i].shortwave_w_m2;
    thunder = thunder || hours[i].thunder;
  }
  const double rain_mm_h = rain_after(hours, at, span) / static_cast<double>(span);
  const std::string half = sun_w_m2 > 0.0 ? "_day" : "_night";
  if (thunder) return "rainshowersandthunder" + half;
  if (rain_mm_h >= 0.05) return rain_mm_h < 0.5 ? "lightrain" : rain_mm_h < 2.0 ? "rain" : "heavyrain";
  if (cloud_pct > 85.0) return "cloudy";
  return (cloud_pct < 13.0 ? "clearsky" : cloud_pct < 38.0 ? "fair" : "partlycloudy") + half;
}

std::string period(const Hours& hours, std::size_t at, std::size_t span, bool with_amount) {
  const std::string amount =
      with_amount ? fmt::format(",\"details\":{{\"precipitation_amount\":{:.1f}}}", rain_after(hours, at, span)) : std::string{};
  return fmt::format(",\"next_{}_hours\":{{\"summary\":{{\"symbol_code\":\"{}\"}}{}}}", span, symbol(hours, at, span), amount);
}

std::string step(const Hours& hours, std::size_t at, std::size_t six_hourly_from) {
  const Hour& hour = hours[at];
  std::string text = fmt::format(
      "{{\"time\":\"{}\",\"data\":{{\"instant\":{{\"details\":{{\"air_pressure_at_sea_level\":{:.1f},\"air_temperature\":{:.1f},"
      "\"cloud_area_fraction\":{:.1f},\"relative_humidity\":{:.1f},\"wind_from_direction\":{:.1f},\"wind_speed\":{:.1f}}}}}",
      stamp(hour.label), hour.sea_level_hpa, hour.temp_c, hour.cloud_pct, hour.rh_pct, hour.wind_from_deg, hour.wind_m_s);
  const bool hourly = at < six_hourly_from;
  const auto known = [&](std::size_t span) { return at + span < hours.size() && (!hourly || at + span <= six_hourly_from); };
  if (known(12)) text += period(hours, at, 12, false);
  if (hourly) text += period(hours, at, 1, true);
  if (known(6)) text += period(hours, at, 6, true);
  return text + "}}";
}

}  // namespace

std::string met_forecast(const Story& story, const Hours& hours) {
  std::size_t six_hourly_from = shortest_hourly_part;
  while (hours[six_hourly_from].label.time_since_epoch().count() % 6 != 0) ++six_hourly_from;
  std::string steps;
  for (std::size_t at = 0; at < hours.size(); at += at < six_hourly_from ? 1 : 6)
    steps += (steps.empty() ? "\n" : ",\n") + step(hours, at, six_hourly_from);
  return fmt::format(
             "{{\"type\":\"Feature\",\"geometry\":{{\"type\":\"Point\",\"coordinates\":[{:.4f},{:.4f},{:.0f}]}},\n"
             "\"properties\":{{\"meta\":{{\"updated_at\":\"{}\",\"units\":{{\"air_pressure_at_sea_level\":\"hPa\",\"air_temperature\":"
             "\"celsius\","
             "\"cloud_area_fraction\":\"%\",\"precipitation_amount\":\"mm\",\"relative_humidity\":\"%\",\"wind_from_direction\":"
             "\"degrees\","
             "\"wind_speed\":\"m/s\"}}}},\n\"timeseries\":[",
             story.place.lon, story.place.lat, story.place.elevation_m, stamp(hours.front().label - std::chrono::hours{1})) +
         steps + "\n]}}\n";
}

}  // namespace samples
