#include "generator/climate.h"

#include <algorithm>
#include <cmath>

#include "generator/random.h"

namespace samples {
namespace {

enum Stream : std::uint64_t { warmth, wetness, amount, sky, start_hour, air };

Day wet_day(const Climate& climate, double high_c, std::uint64_t seed, std::uint64_t index) {
  const double high = high_c - 3.5;
  const double total_mm = std::clamp(-climate.wet_mm * std::log(1.0 - uniform(seed, amount, index)), 0.8, 4.0 * climate.wet_mm);
  const double from_h = std::floor(2.0 + 17.0 * uniform(seed, start_hour, index));
  const int hours = 3 + static_cast<int>(std::min(11.0, total_mm / 2.0));
  return {high - 0.55 * climate.range_c, high,   high - 0.35 * climate.depression_c, {85, 92, 90, 75},
          climate.wind_m_s * 1.15,       1008.0, {{from_h, hours, total_mm}}};
}

Day dry_day(const Climate& climate, double high_c, std::uint64_t seed, std::uint64_t index) {
  const double cloud = 75.0 * uniform(seed, sky, index);
  const double air_term = normal(seed, air, index);
  return {high_c - climate.range_c * (1.0 - 0.003 * cloud),
          high_c,
          high_c - climate.depression_c * (1.0 - 0.004 * cloud) + 1.3 * air_term,
          {0.6 * cloud, 0.8 * cloud, std::min(95.0, 1.2 * cloud + 8.0), 0.7 * cloud},
          climate.wind_m_s * (1.0 + 0.15 * air_term),
          1017.0 - 0.05 * cloud};
}

}  // namespace

std::vector<Day> ordinary_days(const Climate& climate, int count, std::uint64_t seed) {
  std::vector<Day> days;
  double anomaly_c = 0.0;
  for (int day = 0; day < count; ++day) {
    const auto index = static_cast<std::uint64_t>(day);
    anomaly_c = 0.6 * anomaly_c + 0.8 * climate.spread_c * normal(seed, warmth, index);
    const double share = static_cast<double>(day) / std::max(1, count - 1);
    const double high_c = climate.high_first_c + share * (climate.high_last_c - climate.high_first_c) + anomaly_c;
    const bool wet = uniform(seed, wetness, index) < climate.wet_chance;
    days.push_back(wet ? wet_day(climate, high_c, seed, index) : dry_day(climate, high_c, seed, index));
  }
  return days;
}

}  // namespace samples
