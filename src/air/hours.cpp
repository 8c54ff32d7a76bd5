#include "air/hours.h"

#include <utility>

#include "air/et_hours.h"
#include "air/humidity.h"
#include "air/pressure.h"
#include "air/shortwave.h"
#include "air/sky_hours.h"
#include "air/sun_hours.h"
#include "air/vapour_hours.h"
#include "air/wind.h"

namespace air {
namespace {

using units::Celsius;
using units::Fraction;
using units::Metres;
using weather::Column;
using weather::Provenance;
using weather::Series;
using weather::Variable;

constexpr Metres elevation_when_unknown{300.0};
constexpr double sky_ratio_when_unknown = 0.6;
constexpr double highest_supersaturation_c = 2.0;  // what two sensors' errors can feign; real air has a few tenths at most

void resize(AirHours& air, std::size_t hours) {
  for (Column* column :
       {&air.temp_c, &air.rh_pct, &air.dew_point_c, &air.vpd_kpa, &air.pressure_kpa, &air.wind_2m_m_s, &air.shortwave_w_m2,
        &air.clear_sky_w_m2, &air.net_radiation_mj_m2_h, &air.et0_fao56_mm_h, &air.et0_asce_short_mm_h, &air.et0_asce_tall_mm_h}) {
    column->resize(hours);
  }
  air.shortwave_source.assign(hours, ShortwaveSource::missing);
}

// Numbers for the kernels over arrays; `instead` stands where one is missing, and what is made of it is dropped again.
std::vector<double> numbers(const Column& column, double instead) {
  std::vector<double> all(column.size());
  for (std::size_t hour = 0; hour < all.size(); ++hour) all[hour] = column.at(hour).value_or(instead);
  return all;
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
  if (given_rh.has(hour) && temperature) {
    const Celsius dew = dew_point(vapour_pressure(Celsius{*temperature}, Fraction{*given_rh.at(hour) / 100.0}));
    air.dew_point_c.set(hour, dew.value, Provenance::derived);
  } else if (given_dew.has(hour)) {
    air.dew_point_c.set(hour, *given_dew.at(hour), given_dew.provenance(hour));
  }
}

// Deficits of all hours whose temperature and humidity are known.
void set_deficit(AirHours& air) {
  std::vector<double> saturation_kpa(air.hours()), vpd_kpa(air.hours());
  vapour_hours(numbers(air.temp_c, 0.0), numbers(air.rh_pct, 0.0), saturation_kpa, vpd_kpa);
  for (std::size_t hour = 0; hour < air.hours(); ++hour)
    if (air.temp_c.has(hour) && air.rh_pct.has(hour)) air.vpd_kpa.set(hour, vpd_kpa[hour], Provenance::derived);
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

// Sets clear sky for every hour; returns that of the hours whose sun stands high enough to judge the cloudiness by (air/sun_hours.h).
std::vector<double> set_clear_sky(AirHours& air, const units::Site& site) {
  std::vector<double> clear_w_m2(air.hours()), judging_w_m2(air.hours());
  sun_hours(site, air.first_label, clear_w_m2, judging_w_m2);
  for (std::size_t hour = 0; hour < air.hours(); ++hour) air.clear_sky_w_m2.set(hour, clear_w_m2[hour], Provenance::derived);
  return judging_w_m2;
}

// Net radiation and evapotranspiration of all hours whose temperature, humidity and shortwave are known.
void set_evaporation(AirHours& air, std::vector<double> judging_w_m2) {
  for (std::size_t hour = 0; hour < air.hours(); ++hour)
    if (!air.shortwave_w_m2.has(hour)) judging_w_m2[hour] = 0.0;
  const std::vector<double> temp_c = numbers(air.temp_c, 0.0), rh_pct = numbers(air.rh_pct, 0.0), wind_m_s = numbers(air.wind_2m_m_s, 0.0),
                            pressure_kpa = numbers(air.pressure_kpa, 0.0), shortwave_w_m2 = numbers(air.shortwave_w_m2, 0.0);
  std::vector<double> ratio(air.hours());
  sky_ratios(shortwave_w_m2, judging_w_m2, first_sky_ratio(shortwave_w_m2, judging_w_m2).value_or(sky_ratio_when_unknown), ratio);
  std::vector<double> net(air.hours()), fao56(air.hours()), asce_short(air.hours()), asce_tall(air.hours());
  et_hours({temp_c, rh_pct, wind_m_s, pressure_kpa, shortwave_w_m2, ratio}, {net, fao56, asce_short, asce_tall});
  for (std::size_t hour = 0; hour < air.hours(); ++hour) {
    if (!air.temp_c.has(hour) || !air.rh_pct.has(hour) || !air.shortwave_w_m2.has(hour)) continue;
    air.net_radiation_mj_m2_h.set(hour, net[hour], Provenance::derived);
    air.et0_fao56_mm_h.set(hour, fao56[hour], Provenance::derived);
    air.et0_asce_short_mm_h.set(hour, asce_short[hour], Provenance::derived);
    air.et0_asce_tall_mm_h.set(hour, asce_tall[hour], Provenance::derived);
  }
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
  std::vector<double> judging_w_m2 = set_clear_sky(air, place);
  const double standard_kpa = pressure_at(place.elevation).value;
  const double factor_to_2m = wind_factor_to_2m(options.wind_height);
  for (std::size_t hour = 0; hour < air.hours(); ++hour) {
    complete_humidity(air, series, hour);
    complete_pressure(air, series, standard_kpa, hour);
    complete_wind(air, series, factor_to_2m, hour);
    complete_shortwave(air, series, hour);
  }
  set_deficit(air);
  set_evaporation(air, std::move(judging_w_m2));
  return air;
}

}  // namespace air
