#include "air/reference_et.h"

#include <cmath>

#include "air/saturation.h"

namespace air {
namespace {

ReferenceEt asce_hourly(Evaporation evaporation, const ReferenceSurface& surface) {
  evaporation.slope = asce_saturation_slope(evaporation.temperature);
  evaporation.soil_heat = evaporation.net_radiation * surface.soil_share;
  return reference_et(evaporation, surface);
}

Step hourly_step(const Evaporation& evaporation) { return evaporation.net_radiation.value < 0.0 ? Step::hourly_night : Step::hourly_day; }

}  // namespace

ReferenceSurface short_reference(Step step) {
  switch (step) {
    case Step::hourly_day:
      return {37.0, 0.24, 0.1};
    case Step::hourly_night:
      return {37.0, 0.96, 0.5};
    case Step::daily:
      break;
  }
  return {900.0, 0.34, 0.0};
}

ReferenceSurface tall_reference(Step step) {
  switch (step) {
    case Step::hourly_day:
      return {66.0, 0.25, 0.04};
    case Step::hourly_night:
      return {66.0, 1.7, 0.2};
    case Step::daily:
      break;
  }
  return {1600.0, 0.38, 0.0};
}

ReferenceEt reference_et(const Evaporation& e, const ReferenceSurface& surface) {
  const double gamma = e.psychrometric_constant.value;
  const double divisor = e.slope.value + gamma * (1.0 + surface.cd_s_m * e.wind_2m.value);
  const double available_mm = millimetres_per_megajoule * (e.net_radiation - e.soil_heat).value;
  const double drying_mm = surface.cn / (e.temperature.value + 273.0) * e.wind_2m.value * e.deficit.value;
  return {units::Millimetres{e.slope.value * available_mm / divisor}, units::Millimetres{gamma * drying_mm / divisor}};
}

ReferenceEt fao56_daily(const Evaporation& evaporation) { return reference_et(evaporation, short_reference(Step::daily)); }
ReferenceEt fao56_hourly(const Evaporation& evaporation) { return reference_et(evaporation, fao56_hourly_grass); }

ReferenceEt asce_short_hourly(Evaporation evaporation) { return asce_hourly(evaporation, short_reference(hourly_step(evaporation))); }
ReferenceEt asce_tall_hourly(Evaporation evaporation) { return asce_hourly(evaporation, tall_reference(hourly_step(evaporation))); }

units::KilopascalsPerKelvin asce_saturation_slope(units::Celsius temperature) {
  return units::KilopascalsPerKelvin{asce_saturation_slope_kpa_c(saturation_terms(temperature.value))};
}

units::Millimetres hargreaves_daily(units::Celsius daily_maximum, units::Celsius daily_minimum,
                                    units::MegajoulesPerSquareMetre extraterrestrial) {
  const double mean_c = 0.5 * (daily_maximum + daily_minimum).value;
  const double range_c = (daily_maximum - daily_minimum).value;
  return units::Millimetres{0.0023 * (mean_c + 17.8) * std::sqrt(range_c) * millimetres_per_megajoule * extraterrestrial.value};
}

}  // namespace air
