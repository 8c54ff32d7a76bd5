#include "air/hours.h"

#include <doctest/doctest.h>

#include <cmath>

#include "air/humidity.h"
#include "air/net_radiation.h"
#include "air/pressure.h"
#include "air/reference_et.h"
#include "air/sun.h"
#include "support/within.h"

using air::ShortwaveSource;
using units::Celsius;
using units::Degrees;
using units::Fraction;
using units::Kilopascals;
using units::MegajoulesPerSquareMetre;
using units::Metres;
using units::Site;
using weather::Provenance;
using weather::Series;
using weather::Variable;
using namespace std::chrono_literals;

namespace {

const Site ithaca{Degrees{42.44}, Degrees{-76.5}, Metres{250}};
constexpr units::UtcHour first{std::chrono::sys_days{2024y / 7 / 10} + std::chrono::hours{5}};  // midnight to 1 a.m. at 75 W
constexpr std::size_t noon = 12;                                                                // the hour that ends at 17:00 UTC

// Three days of a plain July: a warm day's swing, dew point steady at 15 C, sky one third covered, light wind.
Series fair_days() {
  Series series(first, 72);
  for (std::size_t h = 0; h < series.hours(); ++h) {
    const double swing = std::cos(2.0 * 3.14159265358979 * (static_cast<double>(h % 24) - 15.0) / 24.0);
    series[Variable::temperature].set(h, 22.0 + 6.0 * swing, Provenance::forecast);
    series[Variable::dew_point].set(h, 15.0, Provenance::forecast);
    series[Variable::cloud].set(h, 33.0, Provenance::forecast);
    series[Variable::wind].set(h, 3.0, Provenance::forecast);
  }
  return series;
}

// Rs/Rso under that sky (Kasten & Czeplak 1980).
const double third_covered = 1.0 - 0.75 * std::pow(0.33, 3.4);

double value(const weather::Column& column, std::size_t hour) { return column.at(hour).value(); }

// Net longwave loss of an hour under a given Rs/Rso (FAO-56 eq. 39).
double loss(const air::AirHours& hours, std::size_t hour, double ratio) {
  return air::net_longwave_hourly(Celsius{value(hours.temp_c, hour)}, air::saturation_pressure(Celsius{15.0}), Fraction{ratio}).value;
}

}  // namespace

TEST_SUITE("air") {
  TEST_CASE("an hour's evapotranspiration follows from its own row") {
    Series series = fair_days();
    series[Variable::shortwave].set(noon, 780.0, Provenance::forecast);
    series[Variable::pressure].set(noon, 98.2, Provenance::observed);
    const air::AirHours hours = air::complete(series, ithaca);
    const units::UtcTime end = hours.label(noon);
    const MegajoulesPerSquareMetre rs{780.0 * 0.0036}, ra = air::extraterrestrial(ithaca, end - 1h, end);
    const double clear = (0.75 + 2e-5 * 250.0) * ra.value;
    const Celsius t{value(hours.temp_c, noon)};
    const Kilopascals ea = air::saturation_pressure(Celsius{15.0});
    air::Evaporation e;
    e.temperature = t;
    e.slope = air::saturation_slope(t);
    e.psychrometric_constant = air::psychrometric_constant(Kilopascals{98.2});
    e.deficit = air::saturation_pressure(t) - ea;
    e.wind_2m = units::MetresPerSecond{3.0 * 4.87 / std::log(67.8 * 10.0 - 5.42)};
    e.net_radiation = air::net_shortwave(rs) - air::net_longwave_hourly(t, ea, Fraction{rs.value / clear});
    e.soil_heat = air::soil_heat_hourly(e.net_radiation);
    CHECK(value(hours.vpd_kpa, noon) == within(e.deficit.value, 1e-12));
    CHECK(value(hours.clear_sky_w_m2, noon) == within(clear / 0.0036, 1e-9));
    CHECK(value(hours.net_radiation_mj_m2_h, noon) == within(e.net_radiation.value, 1e-12));
    CHECK(value(hours.et0_fao56_mm_h, noon) == within(air::fao56_hourly(e).total().value, 1e-12));
    CHECK(value(hours.et0_asce_short_mm_h, noon) == within(air::asce_short_hourly(e).total().value, 1e-12));
    CHECK(value(hours.et0_asce_tall_mm_h, noon) == within(air::asce_tall_hourly(e).total().value, 1e-12));
  }

  TEST_CASE("every number says where it comes from") {
    Series series = fair_days();
    series[Variable::shortwave].set(noon, 780.0, Provenance::analysed);
    series[Variable::wind] = weather::Column(series.hours());
    const air::AirHours hours = air::complete(series, ithaca);
    CHECK(hours.temp_c.provenance(noon) == Provenance::forecast);
    CHECK(hours.dew_point_c.provenance(noon) == Provenance::forecast);
    CHECK(hours.rh_pct.provenance(noon) == Provenance::derived);
    CHECK(hours.pressure_kpa.provenance(noon) == Provenance::derived);
    CHECK(value(hours.pressure_kpa, noon) == within(air::pressure_at(Metres{250}).value, 1e-12));
    CHECK(hours.wind_2m_m_s.provenance(noon) == Provenance::derived);
    CHECK(value(hours.wind_2m_m_s, noon) == 2.0);
    CHECK(hours.shortwave_w_m2.provenance(noon) == Provenance::analysed);
    CHECK(hours.shortwave_source[noon] == ShortwaveSource::provided);
    CHECK(hours.shortwave_source[noon + 1] == ShortwaveSource::from_cloud);
    CHECK(hours.shortwave_source[1] == ShortwaveSource::sun_down);
    CHECK(hours.shortwave_w_m2.provenance(noon + 1) == Provenance::derived);
  }

  TEST_CASE("without a shortwave of its own an hour takes clear sky dimmed by its cloud") {
    const air::AirHours hours = air::complete(fair_days(), ithaca);
    CHECK(value(hours.shortwave_w_m2, noon) == within(third_covered * value(hours.clear_sky_w_m2, noon), 1e-9));
    CHECK(value(hours.shortwave_w_m2, 1) == 0.0);
  }

  TEST_CASE("without shortwave and cloud the day has no radiation and no evapotranspiration, but the night has") {
    Series series = fair_days();
    series[Variable::cloud] = weather::Column(series.hours());
    const air::AirHours hours = air::complete(series, ithaca);
    CHECK(hours.shortwave_source[noon] == ShortwaveSource::missing);
    for (const weather::Column* column : {&hours.shortwave_w_m2, &hours.net_radiation_mj_m2_h, &hours.et0_fao56_mm_h,
                                          &hours.et0_asce_short_mm_h, &hours.et0_asce_tall_mm_h}) {
      CHECK_FALSE(column->has(noon));
      CHECK(column->has(1));
    }
    CHECK(hours.vpd_kpa.has(noon));
    CHECK(hours.clear_sky_w_m2.has(noon));
  }

  TEST_CASE("relative humidity wins over a dew point that disagrees, hour by hour") {
    Series series = fair_days();
    series[Variable::relative_humidity].set(noon, 40.0, Provenance::observed);
    const air::AirHours hours = air::complete(series, ithaca);
    const Celsius t{value(hours.temp_c, noon)};
    CHECK(value(hours.rh_pct, noon) == 40.0);
    CHECK(hours.rh_pct.provenance(noon) == Provenance::observed);
    CHECK(value(hours.vpd_kpa, noon) == within(0.6 * air::saturation_pressure(t).value, 1e-12));
    CHECK(air::saturation_pressure(Celsius{value(hours.dew_point_c, noon)}).value ==
          within(0.4 * air::saturation_pressure(t).value, 1e-12));
    CHECK(value(hours.dew_point_c, noon + 1) == 15.0);
  }

  TEST_CASE("a dew point far above the temperature is no humidity, one within rounding is saturated air") {
    Series series = fair_days();
    series[Variable::dew_point].set(3, 30.0, Provenance::forecast);
    series[Variable::dew_point].set(4, *series.at(Variable::temperature, 4) + 0.3, Provenance::forecast);
    const air::AirHours hours = air::complete(series, ithaca);
    CHECK_FALSE(hours.rh_pct.has(3));
    CHECK_FALSE(hours.vpd_kpa.has(3));
    CHECK_FALSE(hours.et0_fao56_mm_h.has(3));
    CHECK(value(hours.vpd_kpa, 4) == 0.0);
    // The border is two degrees, what two sensors' errors can feign.
    Series edge = fair_days();
    edge[Variable::dew_point].set(3, *edge.at(Variable::temperature, 3) + 1.95, Provenance::observed);
    edge[Variable::dew_point].set(4, *edge.at(Variable::temperature, 4) + 2.05, Provenance::observed);
    CHECK(air::complete(edge, ithaca).rh_pct.has(3));
    CHECK_FALSE(air::complete(edge, ithaca).rh_pct.has(4));
  }

  TEST_CASE("a missing temperature leaves the hour without deficit and evapotranspiration, and no other") {
    Series series = fair_days();
    series[Variable::temperature].set(noon, 0.0, Provenance::missing);
    const air::AirHours hours = air::complete(series, ithaca);
    for (const weather::Column* column :
         {&hours.temp_c, &hours.rh_pct, &hours.vpd_kpa, &hours.net_radiation_mj_m2_h, &hours.et0_fao56_mm_h})
      CHECK_FALSE(column->has(noon));
    CHECK(hours.et0_fao56_mm_h.has(noon + 1));
    CHECK(hours.dew_point_c.has(noon));
  }

  TEST_CASE("a night keeps the cloudiness of the last high sun before it, and a first night that of the sun ahead") {
    Series overcast_evening = fair_days(), fair = fair_days();
    for (std::size_t h = 13; h < 24; ++h) overcast_evening[Variable::cloud].set(h, 100.0, Provenance::forecast);
    const air::AirHours under_cloud = air::complete(overcast_evening, ithaca), clear = air::complete(fair, ithaca);
    const std::size_t night_after = 26, night_before = 2;
    CHECK(value(under_cloud.net_radiation_mj_m2_h, night_after) > value(clear.net_radiation_mj_m2_h, night_after) + 0.02);
    CHECK(value(under_cloud.net_radiation_mj_m2_h, night_before) == value(clear.net_radiation_mj_m2_h, night_before));
    CHECK(value(clear.net_radiation_mj_m2_h, night_before) == within(-loss(clear, night_before, third_covered), 1e-12));
  }

  TEST_CASE("an hour of low sun does not judge the sky by its own radiation") {
    Series series = fair_days();
    const std::size_t before_sunset = 19;  // mid-hour an hour before sunset: the sun 11 degrees up
    const double clear_w_m2 = value(air::complete(series, ithaca).clear_sky_w_m2, before_sunset);
    series[Variable::shortwave].set(before_sunset, 0.4 * clear_w_m2, Provenance::observed);
    const air::AirHours hours = air::complete(series, ithaca);
    CHECK(value(hours.net_radiation_mj_m2_h, before_sunset) ==
          within(0.77 * 0.4 * clear_w_m2 * 0.0036 - loss(hours, before_sunset, third_covered), 1e-12));
    CHECK(value(hours.net_radiation_mj_m2_h, before_sunset + 2) == within(-loss(hours, before_sunset + 2, third_covered), 1e-12));
  }

  TEST_CASE("where winter's noon sun is low itself, noon judges the sky") {
    const Site edinburgh{Degrees{55.9}, Degrees{-76.5}, Metres{50}};
    Series series = fair_days();
    Series winter(units::UtcHour{std::chrono::sys_days{2024y / 12 / 21} + 5h}, series.hours());
    for (Variable v : {Variable::temperature, Variable::dew_point, Variable::cloud}) winter[v] = series[v];
    for (std::size_t h = 0; h < winter.hours(); ++h) winter[Variable::cloud].set(h, h % 24 < 11 ? 100.0 : 33.0, Provenance::forecast);
    const air::AirHours hours = air::complete(winter, edinburgh);
    // Cloud is thick until 11 a.m., when the sun stands at two thirds of its noon elevation: the evening remembers noon.
    CHECK(value(hours.net_radiation_mj_m2_h, 20) == within(-loss(hours, 20, third_covered), 1e-12));
    CHECK(value(hours.net_radiation_mj_m2_h, 2) == within(-loss(hours, 2, third_covered), 1e-12));
  }

  TEST_CASE("a wind measured lower blows harder at 2 m") {
    const air::AirHours from_10m = air::complete(fair_days(), ithaca), from_3m = air::complete(fair_days(), ithaca, {Metres{3.0}, true});
    CHECK(value(from_10m.wind_2m_m_s, noon) == within(3.0 * 0.748, 3.0 * 0.0005));  // FAO-56 annex 2, table 2.9
    CHECK(value(from_3m.wind_2m_m_s, noon) == within(3.0 * 0.921, 3.0 * 0.0005));
  }

  TEST_CASE("an unknown elevation stands for 300 m") {
    Site anywhere = ithaca;
    anywhere.elevation = Metres{0.0};
    Site at_300m = ithaca;
    at_300m.elevation = Metres{300.0};
    const air::AirHours unknown = air::complete(fair_days(), anywhere, {Metres{10.0}, false}), known = air::complete(fair_days(), at_300m);
    CHECK(value(unknown.pressure_kpa, noon) == value(known.pressure_kpa, noon));
    CHECK(value(unknown.et0_fao56_mm_h, noon) == value(known.et0_fao56_mm_h, noon));
  }

  TEST_CASE("an empty series gives an empty record, and a polar night one without sun") {
    CHECK(air::complete(Series{}, ithaca).hours() == 0);
    Series series = fair_days();
    const air::AirHours night = air::complete(series, {Degrees{-80.0}, Degrees{0.0}, Metres{0}});
    for (std::size_t h = 0; h < night.hours(); ++h) {
      CHECK(value(night.clear_sky_w_m2, h) == 0.0);
      CHECK(value(night.net_radiation_mj_m2_h, h) == within(-loss(night, h, 0.6), 1e-12));
    }
  }
}
