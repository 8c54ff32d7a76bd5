#include "air/hours.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "air/humidity.h"
#include "air/net_radiation.h"
#include "air/pressure.h"
#include "air/reference_et.h"
#include "air/shortwave.h"
#include "air/sun.h"
#include "air/wind.h"

namespace air {
namespace {

using units::Celsius;
using units::Fraction;
using units::Kilopascals;
using units::MegajoulesPerSquareMetre;
using units::Metres;
using weather::Column;
using weather::Provenance;
using weather::Series;
using weather::Variable;

constexpr Metres elevation_when_unknown{300.0};
constexpr double relative_shortwave_when_unknown = 0.6;
constexpr double lowest_sun_rad = 0.3;
constexpr double highest_supersaturation_c = 2.0;  // what two sensors' errors can feign; real air has a few tenths at most

void resize(AirHours& air, std::size_t hours) {
  for (Column* column :
       {&air.temp_c, &air.rh_pct, &air.dew_point_c, &air.vpd_kpa, &air.pressure_kpa, &air.wind_2m_m_s, &air.shortwave_w_m2,
        &air.clear_sky_w_m2, &air.net_radiation_mj_m2_h, &air.et0_fao56_mm_h, &air.et0_asce_short_mm_h, &air.et0_asce_tall_mm_h}) {
    column->resize(hours);
  }
  air.shortwave_source.assign(hours, ShortwaveSource::missing);
}

// Dew point from humidity where humidity is known, humidity from dew point where it is not.
void complete_humidity(AirHours& air, const Series& series, std::size_t hour) {
  const Column& given_rh = series[Variable::relative_humidity];
  const Column& given_dew = series[Variable::dew_point];
  const auto temperature = air.temp_c.at(hour);
  if (const auto rh = given_rh.at(hour)) {
    air.rh_pct.set(hour, *rh, given_rh.provenance(hour));
  } else if (given_dew.has(hour) && temperature && *given_dew.at(hour) - *temperature <= highest_supersaturation_c) {
    const double share = saturation_pressure(Celsius{*given_dew.at(hour)}) / saturation_pressure(Celsius{*temperature});
    air.rh_pct.set(hour, 100.0 * share, Provenance::derived);
  }
  const auto rh = air.rh_pct.at(hour);
  if (rh && temperature) {
    const Fraction humidity{*rh / 100.0};
    air.vpd_kpa.set(hour, vapour_pressure_deficit(Celsius{*temperature}, humidity).value, Provenance::derived);
    if (given_rh.has(hour)) {
      const Celsius dew = dew_point(vapour_pressure(Celsius{*temperature}, humidity));
      air.dew_point_c.set(hour, dew.value, Provenance::derived);
      return;
    }
  }
  if (given_dew.has(hour)) air.dew_point_c.set(hour, *given_dew.at(hour), given_dew.provenance(hour));
}

void complete_pressure(AirHours& air, const Series& series, double standard_kpa, std::size_t hour) {
  const Column& given = series[Variable::pressure];
  if (const auto pressure = given.at(hour)) {
    air.pressure_kpa.set(hour, *pressure, given.provenance(hour));
  } else {
    air.pressure_kpa.set(hour, standard_kpa, Provenance::derived);
  }
}

void complete_wind(AirHours& air, const Series& series, double factor_to_2m, std::size_t hour) {
  const Column& given = series[Variable::wind];
  if (const auto wind = given.at(hour)) {
    air.wind_2m_m_s.set(hour, *wind * factor_to_2m, given.provenance(hour));
  } else {
    air.wind_2m_m_s.set(hour, wind_when_unknown.value, Provenance::derived);
  }
}

void complete_shortwave(AirHours& air, const Series& series, std::size_t hour) {
  const Column& given = series[Variable::shortwave];
  const double clear_w_m2 = *air.clear_sky_w_m2.at(hour);
  if (const auto shortwave = given.at(hour)) {
    air.shortwave_w_m2.set(hour, *shortwave, given.provenance(hour));
    air.shortwave_source[hour] = ShortwaveSource::provided;
  } else if (clear_w_m2 <= 0.0) {
    air.shortwave_w_m2.set(hour, 0.0, Provenance::derived);
    air.shortwave_source[hour] = ShortwaveSource::sun_down;
  } else if (const auto cloud_pct = series.at(Variable::cloud, hour)) {
    air.shortwave_w_m2.set(hour, clear_w_m2 * cloud_transmission(Fraction{*cloud_pct / 100.0}).value, Provenance::derived);
    air.shortwave_source[hour] = ShortwaveSource::from_cloud;
  }
}

// Sets clear sky for every hour; returns for each whether its sun stands high enough to judge the cloudiness by.
std::vector<bool> set_clear_sky(AirHours& air, const units::Site& site) {
  std::vector<bool> sun_is_high(air.hours());
  std::optional<units::LocalDay> date;
  SolarDay day;
  for (std::size_t hour = 0; hour < air.hours(); ++hour) {
    const units::UtcTime end = air.label(hour), start = end - std::chrono::hours{1}, middle = end - std::chrono::minutes{30};
    if (const auto today = solar_date(middle, site.longitude); today != date) {
      date = today;
      day = solar_day(units::day_of_year(today), site.latitude);
    }
    const MegajoulesPerSquareMetre clear = clear_sky(extraterrestrial(day, start, end, site.longitude), site.elevation);
    air.clear_sky_w_m2.set(hour, clear.value / megajoules_per_watt_hour, Provenance::derived);
    const double noon_rad = elevation_angle(day, units::Radians{0.0}).value;
    const double enough_rad = noon_rad < 0.4 ? 0.75 * noon_rad : lowest_sun_rad;
    sun_is_high[hour] = noon_rad > 0.0 && elevation_angle(day, hour_angle(day, middle, site.longitude)).value >= enough_rad;
  }
  return sun_is_high;
}

// Rs/Rso of every hour as the longwave term is to see it: see complete().
std::vector<double> relative_shortwave(const AirHours& air, const std::vector<bool>& sun_is_high) {
  std::vector<double> ratio(air.hours(), relative_shortwave_when_unknown);
  std::optional<double> last;
  for (std::size_t hour = 0; hour < air.hours(); ++hour) {
    const auto shortwave = air.shortwave_w_m2.at(hour);
    if (sun_is_high[hour] && shortwave) {
      const double own = *shortwave / *air.clear_sky_w_m2.at(hour);
      if (!last) std::fill_n(ratio.begin(), hour, own);
      last = own;
    }
    if (last) ratio[hour] = *last;
  }
  return ratio;
}

void set_evaporation(AirHours& air, double relative_shortwave, std::size_t hour) {
  const auto temp_c = air.temp_c.at(hour), rh_pct = air.rh_pct.at(hour), shortwave_w_m2 = air.shortwave_w_m2.at(hour);
  if (!temp_c || !rh_pct || !shortwave_w_m2) return;
  const Celsius temperature{*temp_c};
  const Kilopascals vapour = vapour_pressure(temperature, Fraction{*rh_pct / 100.0});
  Evaporation evaporation;
  evaporation.temperature = temperature;
  evaporation.slope = saturation_slope(temperature);
  evaporation.psychrometric_constant = psychrometric_constant(Kilopascals{*air.pressure_kpa.at(hour)});
  evaporation.deficit = Kilopascals{*air.vpd_kpa.at(hour)};
  evaporation.wind_2m = units::MetresPerSecond{*air.wind_2m_m_s.at(hour)};
  evaporation.net_radiation = net_shortwave(MegajoulesPerSquareMetre{*shortwave_w_m2 * megajoules_per_watt_hour}) -
                              net_longwave_hourly(temperature, vapour, Fraction{relative_shortwave});
  evaporation.soil_heat = soil_heat_hourly(evaporation.net_radiation);
  air.net_radiation_mj_m2_h.set(hour, evaporation.net_radiation.value, Provenance::derived);
  air.et0_fao56_mm_h.set(hour, fao56_hourly(evaporation).total().value, Provenance::derived);
  air.et0_asce_short_mm_h.set(hour, asce_short_hourly(evaporation).total().value, Provenance::derived);
  air.et0_asce_tall_mm_h.set(hour, asce_tall_hourly(evaporation).total().value, Provenance::derived);
}

}  // namespace

AirHours complete(const Series& series, const units::Site& site, const HoursOptions& options) {
  units::Site place = site;
  if (!options.elevation_known) place.elevation = elevation_when_unknown;
  AirHours air;
  air.first_label = series.first_label();
  resize(air, series.hours());
  air.temp_c = series[Variable::temperature];
  air.temp_c.resize(series.hours());
  const std::vector<bool> sun_is_high = set_clear_sky(air, place);
  const double standard_kpa = pressure_at(place.elevation).value;
  const double factor_to_2m = wind_factor_to_2m(options.wind_height);
  for (std::size_t hour = 0; hour < air.hours(); ++hour) {
    complete_humidity(air, series, hour);
    complete_pressure(air, series, standard_kpa, hour);
    complete_wind(air, series, factor_to_2m, hour);
    complete_shortwave(air, series, hour);
  }
  const std::vector<double> ratio = relative_shortwave(air, sun_is_high);
  for (std::size_t hour = 0; hour < air.hours(); ++hour) set_evaporation(air, ratio[hour], hour);
  return air;
}

}  // namespace air
