#include "generator/station_csv.h"

#include <date/date.h>
#include <fmt/format.h>

namespace samples {
namespace {

// Four hours without power, and a pyranometer that was taken down for a day.
bool without_power(std::size_t row) { return row >= 500 && row < 504; }
bool without_sun_sensor(std::size_t row) { return row >= 900 && row < 924; }

}  // namespace

std::string station_csv(const Story& story, const std::vector<Hour>& hours) {
  std::string text = fmt::format(
      "# Invented station record of {} ({:.4f}, {:.4f}, {:.0f} m). Labels end the hour.\n"
      "time_utc,temp_c,rh_pct,rain_mm,shortwave_w_m2,wind_m_s,wind_gust_m_s,pressure_kpa\n",
      story.place.name, story.place.lat, story.place.lon, story.place.elevation_m);
  for (std::size_t row = 0; row < hours.size(); ++row) {
    const Hour& hour = hours[row];
    if (without_power(row)) {
      text += fmt::format("{},,,,,,,\n", date::format("%FT%RZ", hour.label));
      continue;
    }
    const std::string sun = without_sun_sensor(row) ? "" : fmt::format("{:.0f}", hour.shortwave_w_m2);
    text += fmt::format("{},{:.1f},{:.0f},{:.1f},{},{:.1f},{:.1f},{:.2f}\n", date::format("%FT%RZ", hour.label), hour.temp_c, hour.rh_pct,
                        hour.rain_mm, sun, hour.wind_m_s, hour.gust_m_s, 0.1 * hour.station_hpa);
  }
  return text;
}

}  // namespace samples
