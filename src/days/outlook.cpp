#include "days/outlook.h"

#include <algorithm>
#include <cmath>

#include "air/shortwave.h"
#include "air/sun.h"

namespace days {
namespace {

using uptake::HourWeather;

// Share of clear-sky radiation that the range of temperature around an hour speaks for: Hargreaves' radiation over clear sky.
class RangeSky {
 public:
  RangeSky(const air::AirHours& air, const units::Site& site) : air_(air), site_(site) {}

  [[nodiscard]] double share(std::size_t hour) const {
    double low = 1e9, high = -1e9;
    for (std::size_t i = hour >= 12 ? hour - 12 : 0; i < std::min(hour + 12, air_.hours()); ++i)
      if (const auto t = air_.temp_c.at(i)) {
        low = std::min(low, *t);
        high = std::max(high, *t);
      }
    if (low > high) return 1.0;
    const units::LocalDay day = air::solar_date(air_.label(hour), site_.longitude);
    const auto above = air::extraterrestrial_daily(air::solar_day(units::day_of_year(day), site_.latitude));
    constexpr double inland = 0.16;  // FAO-56 eq. 50
    const double range = air::from_temperature_range(above, units::Celsius{high}, units::Celsius{low}, inland).value;
    return std::clamp(range / air::clear_sky(above, site_.elevation).value, 0.25, 1.0);
  }

 private:
  const air::AirHours& air_;
  const units::Site& site_;
};

bool usable(const air::AirHours& air, std::size_t hour) { return air.temp_c.has(hour) && air.dew_point_c.has(hour); }

double mean_of_ends(const weather::Column& column, std::size_t hour) {
  const double end = *column.at(hour);
  return hour > 0 && column.has(hour - 1) ? 0.5 * (end + *column.at(hour - 1)) : end;
}

HourWeather hour_weather(const Course& course, std::size_t i, double leaf_share, double shortwave) {
  const air::AirHours& air = *course.air;
  const soil::Hours& soil = *course.soil;
  HourWeather w;
  w.temp_c = mean_of_ends(air.temp_c, i);
  w.dew_point_c = mean_of_ends(air.dew_point_c, i);
  w.pressure_kpa = *air.pressure_kpa.at(i);
  w.shortwave_w_m2 = shortwave;
  w.clear_sky_w_m2 = *air.clear_sky_w_m2.at(i);
  w.rain_mm = soil.rain_mm[i];
  w.reference_mm = air.et0_asce_short_mm_h.at(i).value_or(0.0);
  w.soil_temp_c = soil.temp_c[i];
  w.rew = soil.rew[i];
  w.rew_sd = soil.rew_sd[i];
  w.saturated_h = soil.saturated_h[i];
  w.leaf_share = leaf_share;
  return w;
}

template <class T>
void repeat_last_day(std::vector<T>& hours, std::size_t extra) {
  if (hours.empty()) return;
  const std::size_t day = std::min<std::size_t>(24, hours.size());
  for (std::size_t i = 0; i < extra; ++i) hours.push_back(hours[hours.size() - day]);
}

}  // namespace

std::optional<std::size_t> Outlook::hour_at(units::UtcTime instant) const {
  const auto offset = std::chrono::floor<std::chrono::hours>(instant - begins(0)).count();
  if (offset < 0 || static_cast<std::size_t>(offset) >= hours()) return std::nullopt;
  return static_cast<std::size_t>(offset);
}

Outlook bring_together(std::span<const Course> courses, const weather::Series& control, const Leaves& leaves, const units::Site& site,
                       units::UtcTime issued, std::size_t extra_h) {
  Outlook outlook;
  outlook.issued = issued;
  outlook.shifted = courses.size() == 1;
  const std::size_t hours = courses.front().air->hours();
  const auto all_usable = [&](std::size_t i) {
    return std::all_of(courses.begin(), courses.end(), [i](const Course& c) { return usable(*c.air, i); });
  };
  std::size_t last = hours;
  while (last > 0 && !all_usable(last - 1)) --last;
  std::size_t first = last;
  while (first > 0 && all_usable(first - 1)) --first;
  outlook.first_label = courses.front().air->label(first);
  outlook.known = last - first;

  bool sky_from_range = false;
  for (const Course& course : courses) {
    const RangeSky range{*course.air, site};
    auto& course_hours = outlook.courses.emplace_back();
    for (std::size_t i = first; i < last; ++i) {
      const auto given = course.air->shortwave_w_m2.at(i);
      sky_from_range = sky_from_range || !given;
      const double shortwave = given ? *given : range.share(i) * *course.air->clear_sky_w_m2.at(i);
      course_hours.push_back(hour_weather(course, i, leaves.out[i] * leaves.crown_now, shortwave));
    }
    repeat_last_day(course_hours, extra_h);
  }
  for (std::size_t i = first; i < last; ++i) {
    HourSigns signs;
    signs.gust_m_s = control.at(weather::Variable::gust, i);
    signs.thunder_pct = control.at(weather::Variable::thunder_chance, i);
    signs.cloud_pct = control.at(weather::Variable::cloud, i);
    signs.leaves_out = leaves.out[i];
    signs.rain_known = control[weather::Variable::rain].has(i);
    outlook.signs.push_back(signs);
  }
  repeat_last_day(outlook.signs, extra_h);
  if (sky_from_range)
    outlook.notes.emplace_back("no cloud or sunshine in the forecast for some hours: taken from the day's range of temperature");
  return outlook;
}

}  // namespace days
