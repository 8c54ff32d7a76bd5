#include "app/gauge.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "app/files.h"
#include "weather/daily_record.h"
#include "weather/nearest.h"

namespace app {

units::Result<std::vector<feeds::GaugeDay>> read_gauge_file(const std::filesystem::path& path) {
  const auto content = read_file(path);
  if (!content) return tl::make_unexpected(content.error());
  return feeds::read_gauge(path.filename().string(), *content);
}

void lay_gauge_over(const std::vector<feeds::GaugeDay>& gauge, const units::Site& site, const units::ZoneOffsets& zone, units::UtcTime now,
                    SiteWeather& weather) {
  double nearest_m = std::numeric_limits<double>::infinity();
  const auto distance_m = [&](const feeds::GaugeDay& day) { return day.site ? units::distance(*day.site, site).value : 0.0; };
  for (const feeds::GaugeDay& day : gauge) nearest_m = std::min(nearest_m, distance_m(day));
  if (nearest_m > weather::far_from_site.value) return;
  std::vector<weather::DayRecord> days;
  for (const feeds::GaugeDay& day : gauge)
    if (distance_m(day) <= nearest_m && zone.end_of(day.day) <= now) days.push_back({day.day, day.rain_mm, {}, {}});
  std::ranges::sort(days, {}, &weather::DayRecord::day);
  if (days.empty()) return;
  weather::lay_gauge_over(weather.control, days, zone);
  for (auto& member : weather.members) weather::lay_gauge_over(member, days, zone);
  weather.notes.push_back(fmt::format("rain of {} day{} by gauge", days.size(), days.size() == 1 ? "" : "s"));
}

}  // namespace app
