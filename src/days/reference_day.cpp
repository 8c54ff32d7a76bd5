#include "days/reference_day.h"

#include <algorithm>
#include <chrono>
#include <cmath>

#include "air/humidity.h"
#include "air/pressure.h"
#include "air/shortwave.h"
#include "air/sun.h"
#include "days/clock.h"
#include "uptake/day.h"

namespace days {

std::vector<uptake::HourWeather> day_of_kind(const DayKind& kind, const units::Site& site, units::UtcTime first_begins, std::size_t count) {
  const double vapour_kpa = air::saturation_pressure(units::Celsius{kind.temp_high_c}).value * kind.rh_at_high_pct / 100.0;
  const double transmission = air::cloud_transmission(units::Fraction{kind.cloud_pct / 100.0}).value;
  std::vector<uptake::HourWeather> hours;
  for (std::size_t i = 0; i < count; ++i) {
    const units::UtcTime begins = first_begins + std::chrono::hours{static_cast<long>(i)}, ends = begins + std::chrono::hours{1};
    const units::UtcTime middle = begins + std::chrono::minutes{30};
    const auto solar = air::solar_day(units::day_of_year(air::solar_date(middle, site.longitude)), site.latitude);
    constexpr double peak_after_noon_rad = 0.785398163397448310;  // three hours
    const double course = std::cos(air::hour_angle(solar, middle, site.longitude).value - peak_after_noon_rad);
    uptake::HourWeather hour;
    hour.temp_c = 0.5 * (kind.temp_high_c + kind.temp_low_c) + 0.5 * (kind.temp_high_c - kind.temp_low_c) * course;
    hour.dew_point_c = std::min(hour.temp_c, air::dew_point(units::Kilopascals{vapour_kpa}).value);
    hour.pressure_kpa = air::pressure_at(site.elevation).value;
    hour.clear_sky_w_m2 =
        air::clear_sky(air::extraterrestrial(solar, begins, ends, site.longitude), site.elevation).value / air::megajoules_per_watt_hour;
    hour.shortwave_w_m2 = hour.clear_sky_w_m2 * transmission;
    hour.soil_temp_c = kind.soil_temp_c;
    hour.rew = kind.rew;
    hours.push_back(hour);
  }
  return hours;
}

double reference_hours(const uptake::Subject& subject, const soil::RewCurve& curve, std::span<const uptake::HourWeather> weather,
                       double start_h) {
  const std::vector<uptake::Shift<double>> as_forecast(weather.size());
  uptake::Day<double> day;
  uptake::prepare<double>(subject, uptake::central_draw(subject.source), curve, weather, as_forecast, 0.0, day);
  const auto unseen = [](std::size_t, const uptake::Flows<double>&, const uptake::Water<double>&) {};
  const auto from = std::min(day.steps() - 1, static_cast<std::size_t>(std::lround(start_h * static_cast<double>(uptake::steps_per_hour))));
  auto water = uptake::at_rest(day);
  uptake::rest(day, 0, from, water, unseen);
  constexpr auto longest = static_cast<std::size_t>(horizon_h) * uptake::steps_per_hour;
  const std::size_t until = std::min(from + longest, day.steps());
  return std::min(uptake::drink(day, from, until, water, unseen).dose_h, static_cast<double>(until - from) * day.step_h);
}

}  // namespace days
