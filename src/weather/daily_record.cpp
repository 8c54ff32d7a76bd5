#include "weather/daily_record.h"

#include <cmath>
#include <numbers>
#include <vector>

namespace weather {
namespace {

// Labels of the hours of a local day; one that straddles its border (zones off the full hour) belongs to the day of its middle.
std::vector<units::UtcHour> labels_of(units::LocalDay day, const units::ZoneOffsets& zone) {
  using std::chrono::hours, std::chrono::minutes;
  const auto middle = [](units::UtcHour label) { return units::UtcTime{label} - minutes{30}; };
  std::vector<units::UtcHour> labels;
  for (auto label = std::chrono::floor<hours>(zone.start_of(day)); middle(label) < zone.end_of(day); label += hours{1})
    if (middle(label) >= zone.start_of(day)) labels.push_back(label);
  return labels;
}

double hour_of_day(units::UtcHour label, const units::ZoneOffsets& zone) {
  const auto local = zone.to_local(label);
  return std::chrono::duration<double, std::ratio<3600>>(local - std::chrono::floor<std::chrono::days>(local)).count();
}

}  // namespace

Series hours_of(std::span<const DayRecord> days, const units::ZoneOffsets& zone) {
  constexpr double warmest_h = 15.0;
  const units::UtcHour first = labels_of(days.front().day, zone).front(), last = labels_of(days.back().day, zone).back();
  Series series{first, static_cast<std::size_t>((last - first).count()) + 1};
  for (const DayRecord& day : days) {
    const auto labels = labels_of(day.day, zone);
    for (const units::UtcHour label : labels) {
      const std::size_t hour = *series.index_of(label);
      if (day.rain_mm) series[Variable::rain].set(hour, *day.rain_mm / static_cast<double>(labels.size()), Provenance::derived);
      if (!day.temp_max_c || !day.temp_min_c) continue;
      const double mean = 0.5 * (*day.temp_max_c + *day.temp_min_c), swing = 0.5 * (*day.temp_max_c - *day.temp_min_c);
      const double phase = 2.0 * std::numbers::pi * (hour_of_day(label, zone) - warmest_h) / 24.0;
      series[Variable::temperature].set(hour, mean + swing * std::cos(phase), Provenance::derived);
      series[Variable::dew_point].set(hour, *day.temp_min_c, Provenance::derived);
    }
  }
  return series;
}

void lay_gauge_over(Series& series, std::span<const DayRecord> days, const units::ZoneOffsets& zone) {
  Column& rain = series[Variable::rain];
  for (const DayRecord& day : days) {
    if (!day.rain_mm) continue;
    std::vector<std::size_t> hours;
    double own_mm = 0.0;
    for (const units::UtcHour label : labels_of(day.day, zone))
      if (const auto hour = series.index_of(label)) {
        hours.push_back(*hour);
        own_mm += rain.at(*hour).value_or(0.0);
      }
    for (const std::size_t hour : hours) {
      const double share = own_mm > 0.0 ? rain.at(hour).value_or(0.0) / own_mm : 1.0 / static_cast<double>(hours.size());
      rain.set(hour, *day.rain_mm * share, Provenance::observed);
    }
  }
}

}  // namespace weather
