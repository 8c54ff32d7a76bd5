#include "days/forecast_error.h"

#include <algorithm>
#include <cmath>

#include "units/random.h"

namespace days {
namespace {

using units::Lanes;

enum Stream : std::uint64_t { temperature, dew_point, cloud, rain };

// Standard normal error of one draw on one lead day: a first-order autoregression from the day of issue on.
double deviate(std::uint64_t seed, Stream stream, std::uint64_t draw, int lead_day, double day_to_day) {
  const auto innovation = [&](int day) {
    return units::normal_quantile(units::hashed_uniform(seed, 4 * static_cast<std::uint64_t>(day) + stream, draw));
  };
  double z = innovation(0);
  for (int day = 1; day <= lead_day; ++day) z = day_to_day * z + std::sqrt(1.0 - day_to_day * day_to_day) * innovation(day);
  return z;
}

}  // namespace

double at_lead(const ErrorGrowth& growth, double lead_d) {
  const auto& x = growth.lead_d;
  if (lead_d <= x.front()) return growth.sd.front();
  if (lead_d >= x.back()) return growth.sd.back();
  const auto above = static_cast<std::size_t>(std::upper_bound(x.begin(), x.end(), lead_d) - x.begin());
  const double share = (lead_d - x[above - 1]) / (x[above] - x[above - 1]);
  return growth.sd[above - 1] + share * (growth.sd[above] - growth.sd[above - 1]);
}

std::vector<uptake::Scenario> scenarios(const Outlook& outlook, const WeatherError& error, std::size_t from, std::size_t until,
                                        std::size_t blocks, std::uint64_t seed) {
  std::vector<uptake::Scenario> all;
  const auto slice = [&](const std::vector<uptake::HourWeather>& hours) {
    return std::vector(hours.begin() + static_cast<std::ptrdiff_t>(from), hours.begin() + static_cast<std::ptrdiff_t>(until));
  };
  if (!outlook.shifted) {
    for (const auto& course : outlook.courses) all.push_back({slice(course), std::vector<uptake::Shift<Lanes>>(until - from)});
    return all;
  }
  const double rho = error.dew_point_correlation;
  for (std::size_t block = 0; block < blocks; ++block) {
    uptake::Scenario scenario{slice(outlook.courses.front()), {}};
    uptake::Shift<Lanes> shift;
    int shift_day = -1;
    for (std::size_t hour = from; hour < until; ++hour) {
      const double lead_d = std::max(0.0, std::chrono::duration<double, std::ratio<86400>>(outlook.begins(hour) - outlook.issued).count());
      const int day = static_cast<int>(lead_d);
      if (day != shift_day) {
        shift_day = day;
        const double sd_t = at_lead(error.temperature_c, day + 0.5), sd_cloud = at_lead(error.cloud_pct, day + 0.5) / 100.0;
        for (int lane = 0; lane < Lanes::count; ++lane) {
          const std::uint64_t draw = block * Lanes::count + static_cast<std::uint64_t>(lane);
          const auto z = [&](Stream stream) { return deviate(seed, stream, draw, day, error.day_to_day); };
          const double t = z(temperature);
          shift.temp_c.set(lane, sd_t * t);
          shift.dew_point_c.set(lane, sd_t * (rho * t + std::sqrt(1.0 - rho * rho) * z(dew_point)));
          shift.cloud.set(lane, sd_cloud * z(cloud));
          shift.rain_factor.set(lane, std::exp(error.rain_ln_sd * (z(rain) - 0.5 * error.rain_ln_sd)));
        }
      }
      scenario.shifts.push_back(shift);
    }
    all.push_back(std::move(scenario));
  }
  return all;
}

}  // namespace days
