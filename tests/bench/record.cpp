#include "bench/record.h"

#include <cmath>
#include <numbers>
#include <random>

namespace bench {

using namespace std::chrono_literals;

Record record(std::size_t hours) {
  Record record{{units::Degrees{42.45}, units::Degrees{-75.0}, units::Metres{250.0}},
                units::UtcHour{std::chrono::sys_days{2024y / 1 / 1}} + std::chrono::hours{6},  // the hour from 0 to 1 by the sun
                {},
                {},
                {},
                {},
                {}};
  std::mt19937_64 random(1);
  const auto between = [&](double from, double to) { return from + (to - from) * static_cast<double>(random() >> 11) * 0x1p-53; };
  double day_c = 0.0, cloud = 0.0;
  for (std::size_t hour = 0; hour < hours; ++hour) {
    const double turn = 2.0 * std::numbers::pi, year = turn * static_cast<double>(hour) / 8766.0,
                 day = turn * static_cast<double>(hour % 24) / 24.0;
    if (hour % 24 == 0) {
      day_c = between(-6.0, 6.0);
      cloud = between(0.0, 0.8);
    }
    record.temp_c.push_back(9.0 - 14.0 * std::cos(year) - 5.0 * std::cos(day - 0.5) + day_c);
    record.rh_pct.push_back(65.0 + 20.0 * std::cos(day - 0.5) + between(-10.0, 10.0));
    record.wind_2m_m_s.push_back(between(0.5, 6.0));
    record.pressure_kpa.push_back(between(96.0, 100.0));
    record.shortwave_w_m2.push_back(std::max(0.0, -950.0 * std::cos(day + turn / 48.0) * (0.65 - 0.3 * std::cos(year)) * (1.0 - cloud)));
  }
  return record;
}

}  // namespace bench
