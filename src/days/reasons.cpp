#include "days/reasons.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "air/humidity.h"
#include "uptake/day.h"

namespace days {
namespace {

using uptake::HourWeather;

double vpd_kpa(const HourWeather& w) {
  return air::vapour_pressure_deficit(air::saturation_pressure(units::Celsius{w.temp_c}),
                                      air::saturation_pressure(units::Celsius{w.dew_point_c}))
      .value;
}

// The dew point that gives a deficit at a temperature.
double dew_point_at(double temp_c, double deficit_kpa) {
  constexpr double driest_kpa = 0.01;
  const double vapour = air::saturation_pressure(units::Celsius{temp_c}).value - deficit_kpa;
  return air::dew_point(units::Kilopascals{std::max(vapour, driest_kpa)}).value;
}

void put_right(Factor factor, const HourWeather& good, HourWeather& w) {
  switch (factor) {
    case Factor::soil_water:
      w.rew = good.rew;
      w.saturated_h = good.saturated_h;
      return;
    case Factor::dryness:
      w.dew_point_c = dew_point_at(w.temp_c, vpd_kpa(good));
      return;
    case Factor::sky:
      w.shortwave_w_m2 = good.shortwave_w_m2;
      return;
    case Factor::wet_leaves:
      w.rain_mm = 0.0;
      w.reference_mm = std::max(w.reference_mm, 0.0);  // no dew either
      return;
    case Factor::temperature: {
      const double deficit = vpd_kpa(w);
      w.temp_c = good.temp_c;
      w.soil_temp_c = good.soil_temp_c;
      w.dew_point_c = dew_point_at(w.temp_c, deficit);
      return;
    }
    case Factor::leaf_state:
      w.leaf_share = good.leaf_share;
  }
}

double hours_for_dose(const uptake::Subject& subject, const soil::RewCurve& curve, std::span<const HourWeather> weather, double wet_mm,
                      double start_h) {
  const std::vector<uptake::Shift<double>> as_forecast(weather.size());
  uptake::Day<double> day;
  uptake::prepare<double>(subject, uptake::central_draw(subject.source), curve, weather, as_forecast, wet_mm, day);
  const auto unseen = [](std::size_t, const uptake::Flows<double>&, const uptake::Water<double>&) {};
  const auto from = std::min(day.steps() - 1, static_cast<std::size_t>(std::lround(start_h * static_cast<double>(uptake::steps_per_hour))));
  auto water = uptake::at_rest(day);
  uptake::rest(day, 0, from, water, unseen);
  constexpr std::size_t a_day = 24 * uptake::steps_per_hour;
  const std::size_t until = std::min(from + a_day, day.steps());
  return std::min(uptake::drink(day, from, until, water, unseen).dose_h, static_cast<double>(until - from) * day.step_h);
}

}  // namespace

double reference_hours(const uptake::Subject& subject, const soil::RewCurve& curve, std::span<const HourWeather> weather, double start_h) {
  return hours_for_dose(subject, curve, weather, 0.0, start_h);
}

Reasons reasons(const uptake::Subject& subject, const soil::RewCurve& curve, std::span<const HourWeather> day,
                std::span<const HourWeather> reference, double wet_mm, double start_h) {
  Reasons found{hours_for_dose(subject, curve, day, wet_mm, start_h), reference_hours(subject, curve, reference, start_h), {}};
  for (const Factor factor :
       std::array{Factor::soil_water, Factor::dryness, Factor::sky, Factor::wet_leaves, Factor::temperature, Factor::leaf_state}) {
    std::vector<HourWeather> changed(day.begin(), day.end());
    for (std::size_t i = 0; i < changed.size(); ++i) put_right(factor, reference[i], changed[i]);
    const double water_mm = factor == Factor::wet_leaves ? 0.0 : wet_mm;
    found.by_factor.push_back({factor, found.hours - hours_for_dose(subject, curve, changed, water_mm, start_h)});
  }
  std::stable_sort(found.by_factor.begin(), found.by_factor.end(),
                   [](const Reason& a, const Reason& b) { return std::abs(a.hours) > std::abs(b.hours); });
  return found;
}

}  // namespace days
