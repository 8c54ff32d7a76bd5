#include "days/outlook.h"

#include <algorithm>
#include <cmath>

#include "days/range_sky.h"

namespace days {
namespace {

using uptake::HourWeather;

bool usable(const air::AirHours& air, std::size_t hour) { return air.temp_c.has(hour) && air.dew_point_c.has(hour); }

double mean_of_ends(const weather::Column& column, std::size_t hour) {
  const double end = *column.at(hour);
  return hour > 0 && column.has(hour - 1) ? 0.5 * (end + *column.at(hour - 1)) : end;
}

// Air of hour `from` (the hour itself, unless its air is unknown), everything else of hour `i`.
HourWeather hour_weather(const Course& course, std::size_t i, std::size_t from, double leaf_share, double shortwave) {
  const air::AirHours& air = *course.air;
  const soil::Hours& soil = *course.soil;
  HourWeather w;
  w.temp_c = mean_of_ends(air.temp_c, from);
  w.dew_point_c = mean_of_ends(air.dew_point_c, from);
  w.pressure_kpa = *air.pressure_kpa.at(i);
  w.shortwave_w_m2 = shortwave;
  w.clear_sky_w_m2 = *air.clear_sky_w_m2.at(i);
  w.rain_mm = soil.rain_mm[i];
  w.reference_mm = air.et0_asce_short_mm_h.at(from).value_or(0.0);
  w.soil_temp_c = soil.temp_c[i];
  w.rew = soil.rew[i];
  w.rew_sd = soil.rew_sd[i];
  w.saturated_h = soil.saturated_h[i];
  w.leaf_share = leaf_share;
  return w;
}

// The hours of an outlook, and for each the hour whose air serves it.
struct Known {
  std::size_t first = 0;
  std::vector<std::size_t> air_of;
  std::size_t borrowed = 0;  // hours whose air is another's
};

Known known_hours(std::span<const Course> courses, units::UtcTime now) {
  const air::AirHours& clock = *courses.front().air;
  const auto all_usable = [&](std::size_t i) {
    return std::all_of(courses.begin(), courses.end(), [i](const Course& c) { return usable(*c.air, i); });
  };
  Known known;
  while (known.first < clock.hours() && !all_usable(known.first)) ++known.first;
  std::size_t next_known = known.first;
  for (std::size_t i = known.first; i < clock.hours(); ++i) {
    if (all_usable(i)) {
      known.air_of.push_back(i);
      continue;
    }
    if (clock.label(i) > now) break;
    while (next_known < clock.hours() && (next_known <= i || !all_usable(next_known))) ++next_known;
    if (i >= known.first + 24)
      known.air_of.push_back(known.air_of[i - known.first - 24]);
    else if (next_known < clock.hours())
      known.air_of.push_back(next_known);
    else
      break;
  }
  // A past that nothing follows is no outlook: its tail has no air of its own.
  while (!known.air_of.empty() && !all_usable(known.first + known.air_of.size() - 1)) known.air_of.pop_back();
  for (std::size_t n = 0; n < known.air_of.size(); ++n)
    if (known.air_of[n] != known.first + n) ++known.borrowed;
  return known;
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

Outlook bring_together(std::span<const Course> courses, const Leaves& leaves, const units::Site& site, const Reach& reach) {
  Outlook outlook;
  outlook.issued = reach.issued;
  const bool services = reach.services && courses.size() > 1;
  outlook.shifted = services || courses.size() == 1;
  const Known known = known_hours(courses, reach.now);
  outlook.first_label = courses.front().air->label(known.first);
  outlook.known = known.air_of.size();

  for (const Course& course : courses) {
    auto& course_hours = outlook.courses.emplace_back();
    for (std::size_t n = 0; n < known.air_of.size(); ++n) {
      const std::size_t i = known.first + n;
      const auto given = course.air->shortwave_w_m2.at(i);
      const double shortwave = given ? *given : range_sky_share(*course.air, site, i) * *course.air->clear_sky_w_m2.at(i);
      course_hours.push_back(hour_weather(course, i, known.air_of[n], leaves.out[i] * leaves.crown_now, shortwave));
    }
    repeat_last_day(course_hours, reach.extra_h);
    if (!services) continue;
    auto& said = outlook.rain_said.emplace_back();
    for (std::size_t i = known.first; i < known.first + known.air_of.size(); ++i)
      said.push_back({(*course.said)[weather::Variable::rain].has(i), course.said->at(weather::Variable::rain_chance, i)});
    repeat_last_day(said, reach.extra_h);
  }
  const weather::Series& control = *courses.front().said;
  for (std::size_t i = known.first; i < known.first + known.air_of.size(); ++i) {
    HourSigns signs;
    signs.gust_m_s = control.at(weather::Variable::gust, i);
    signs.thunder_pct = control.at(weather::Variable::thunder_chance, i);
    signs.cloud_pct = control.at(weather::Variable::cloud, i);
    signs.leaves_out = leaves.out[i];
    signs.rain_known = control[weather::Variable::rain].has(i);
    signs.rain_chance_pct = control.at(weather::Variable::rain_chance, i);
    outlook.signs.push_back(signs);
  }
  repeat_last_day(outlook.signs, reach.extra_h);
  if (known.borrowed > 0)
    outlook.notes.push_back("past hours without temperature or humidity take those of another day: " + std::to_string(known.borrowed) +
                            " h");
  return outlook;
}

}  // namespace days
