#include "bench/et_plain.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bench {
namespace {

using std::numbers::pi;

// What a solar day fixes.
struct Day {
  double w_m2, sine_part, cosine_part, sunset, first_angle, judging_sine;
};

Day day_of(const units::Site& site, int day_of_year, double first_middle_h) {
  const double latitude = site.latitude.value * pi / 180.0, year = 2.0 * pi * day_of_year / 365.0,
               b = 2.0 * pi * (day_of_year - 81) / 364.0;
  const double declination = 0.409 * std::sin(year - 1.39), noon_sine = std::cos(latitude - declination);
  const double correction_h = 0.1645 * std::sin(2.0 * b) - 0.1255 * std::cos(b) - 0.025 * std::sin(b);
  const double noon = std::asin(noon_sine);
  return {12.0 / pi * 60.0 * 0.0820 * (1.0 + 0.033 * std::cos(year)) * (0.75 + 2e-5 * site.elevation.value) / 0.0036,
          std::sin(latitude) * std::sin(declination),
          std::cos(latitude) * std::cos(declination),
          std::acos(std::clamp(-std::tan(latitude) * std::tan(declination), -1.0, 1.0)),
          (first_middle_h + correction_h - 12.0) * pi / 12.0,
          noon > 0.0 ? std::sin(noon < 0.4 ? 0.75 * noon : 0.3) : 2.0};
}

}  // namespace

void et_plain(const Record& record, double sky_ratio, std::span<double> fao56_mm_h, std::span<double> asce_short_mm_h) {
  auto date = units::LocalDay{std::chrono::floor<std::chrono::days>(record.first_label - std::chrono::hours{1}).time_since_epoch()};
  for (std::size_t midnight = 0; midnight < record.hours(); midnight += 24, date += std::chrono::days{1}) {
    const Day day = day_of(record.site, units::day_of_year(date), 0.5);
    for (std::size_t hour = midnight; hour < midnight + 24; ++hour) {
      const double middle = day.first_angle + static_cast<double>(hour - midnight) * pi / 12.0;
      const double from = std::max(middle - pi / 24.0, -day.sunset), to = std::min(middle + pi / 24.0, day.sunset);
      const double rs = record.shortwave_w_m2[hour];
      if (from < to) {
        const double rso = day.w_m2 * ((to - from) * day.sine_part + (std::sin(to) - std::sin(from)) * day.cosine_part);
        if (day.sine_part + day.cosine_part * std::cos(middle) >= day.judging_sine) sky_ratio = rs / rso;
      }
      const double t = record.temp_c[hour], from_pole = t + 237.3, wind = record.wind_2m_m_s[hour];
      const double growth = std::exp(17.27 * t / from_pole), es = 0.6108 * growth, ea = es * record.rh_pct[hour] / 100.0;
      const double kelvin = t + 273.16, kelvin_2 = kelvin * kelvin;
      const double longwave = 4.903e-9 / 24.0 * kelvin_2 * kelvin_2 * std::max(0.0, 0.34 - 0.14 * std::sqrt(ea)) *
                              (1.35 * std::clamp(sky_ratio, 0.3, 1.0) - 0.35);
      const double net = 0.77 * 0.0036 * rs - longwave, gamma = 0.665e-3 * record.pressure_kpa[hour];
      const bool night = net < 0.0;
      const double available = 0.408 * net * (night ? 0.5 : 0.9), drying = gamma * 37.0 / (t + 273.0) * wind * std::max(0.0, es - ea);
      const double slope = 4098.0 * es / (from_pole * from_pole), asce_slope = 2503.0 * growth / (from_pole * from_pole);
      fao56_mm_h[hour] = (slope * available + drying) / (slope + gamma * (1.0 + 0.34 * wind));
      asce_short_mm_h[hour] = (asce_slope * available + drying) / (asce_slope + gamma * (1.0 + (night ? 0.96 : 0.24) * wind));
    }
  }
}

void vapour_plain(std::span<const double> temp_c, std::span<const double> rh_pct, std::span<double> saturation_kpa,
                  std::span<double> vpd_kpa) {
  for (std::size_t i = 0; i < temp_c.size(); ++i) {
    saturation_kpa[i] = 0.6108 * std::exp(17.27 * temp_c[i] / (temp_c[i] + 237.3));
    vpd_kpa[i] = std::max(0.0, saturation_kpa[i] * (1.0 - rh_pct[i] / 100.0));
  }
}

}  // namespace bench
