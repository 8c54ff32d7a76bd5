#include "air/sun.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/solar_terms.h"

namespace air {
namespace {

using std::numbers::pi;
using units::Degrees;
using units::Hours;
using units::MegajoulesPerSquareMetre;
using units::Radians;
using units::UtcTime;

double radians(Degrees angle) { return angle.value * pi / 180.0; }

// Integral of the sine of the sun's elevation over hour angles: the bracket of eq. 21 (halved) and of eq. 28.
double integrated_sine(const SolarDay& day, double from, double to) {
  const double latitude = radians(day.latitude), declination = day.declination.value;
  return (to - from) * std::sin(latitude) * std::sin(declination) +
         std::cos(latitude) * std::cos(declination) * (std::sin(to) - std::sin(from));
}

// Radiation over hour angles that lie in daylight.
double radiation_mj_m2(const SolarDay& day, double from, double to) {
  return solar_constant_mj_m2_rad * day.relative_distance * integrated_sine(day, from, to);
}

UtcTime middle(UtcTime start, UtcTime end) { return start + (end - start) / 2; }

}  // namespace

Radians sunset_angle(Degrees latitude, Radians declination) {
  return Radians{std::acos(std::clamp(-std::tan(radians(latitude)) * std::tan(declination.value), -1.0, 1.0))};
}

SolarDay solar_day(int day_of_year, Degrees latitude) {
  const auto terms = solar_terms<double>(day_of_year);
  SolarDay day;
  day.latitude = latitude;
  day.relative_distance = terms.relative_distance;
  day.declination = Radians{terms.declination_rad};
  day.sunset_angle = sunset_angle(latitude, day.declination);
  day.seasonal_correction = Hours{terms.seasonal_correction_h};
  return day;
}

units::LocalDay solar_date(UtcTime instant, Degrees longitude) {
  const std::chrono::seconds offset{std::lround(longitude.value * 240.0)};
  return units::LocalDay{std::chrono::floor<std::chrono::days>(instant + offset).time_since_epoch()};
}

Hours daylight(const SolarDay& day) { return Hours{2.0 * hours_per_radian * day.sunset_angle.value}; }

MegajoulesPerSquareMetre extraterrestrial_daily(const SolarDay& day) {
  return MegajoulesPerSquareMetre{radiation_mj_m2(day, -day.sunset_angle.value, day.sunset_angle.value)};
}

Radians hour_angle(const SolarDay& day, UtcTime instant, Degrees longitude) {
  const auto midnight = std::chrono::floor<std::chrono::days>(instant);
  const double utc_h = static_cast<double>((instant - midnight).count()) / 3600.0;
  const double solar_h = utc_h + longitude.value / 15.0 + day.seasonal_correction.value;
  return Radians{std::remainder((solar_h - 12.0) / hours_per_radian, 2.0 * pi)};
}

Radians elevation_angle(const SolarDay& day, Radians hour_angle) {
  const double latitude = radians(day.latitude), declination = day.declination.value;
  return Radians{std::asin(std::clamp(
      std::sin(latitude) * std::sin(declination) + std::cos(latitude) * std::cos(declination) * std::cos(hour_angle.value), -1.0, 1.0))};
}

MegajoulesPerSquareMetre extraterrestrial(const SolarDay& day, UtcTime start, UtcTime end, Degrees longitude) {
  const double centre = hour_angle(day, middle(start, end), longitude).value;
  const double half_width = 0.5 * static_cast<double>((end - start).count()) / 3600.0 / hours_per_radian;
  const double sunset = day.sunset_angle.value;
  double sum = 0.0;
  // A period around midnight may touch the evening of one daylight span and the morning of the next.
  for (const double turn : {-2.0 * pi, 0.0, 2.0 * pi}) {
    const double from = std::max(centre - half_width, turn - sunset);
    const double to = std::min(centre + half_width, turn + sunset);
    if (from < to) sum += radiation_mj_m2(day, from, to);
  }
  return MegajoulesPerSquareMetre{sum};
}

MegajoulesPerSquareMetre extraterrestrial(const units::Site& site, UtcTime start, UtcTime end) {
  const int day_of_year = units::day_of_year(solar_date(middle(start, end), site.longitude));
  return extraterrestrial(solar_day(day_of_year, site.latitude), start, end, site.longitude);
}

}  // namespace air
