#include <cmath>
#include <numbers>

#include "air/humidity.h"
#include "air/net_radiation.h"
#include "air/pressure.h"
#include "air/reference_et.h"
#include "air/shortwave.h"
#include "air/sun.h"
#include "air/wind.h"
#include "reckon.h"

namespace reference {
namespace {

using air::Evaporation;
using units::Celsius;
using units::Degrees;
using units::Fraction;
using units::Kilopascals;
using units::MegajoulesPerSquareMetre;
using units::Metres;
using units::MetresPerSecond;

constexpr double megajoules_per_langley = 0.041868;
constexpr double metres_per_second_per_mph = 0.44704;
constexpr double millimetres_per_inch = 25.4;
const Metres fallon_elevation{1208.5};
const Degrees fallon_latitude{39.4575}, fallon_longitude{-118.77388};
const Metres fallon_wind_height{3.0};

Celsius from_fahrenheit(double f) { return Celsius{(f - 32.0) / 1.8}; }

struct StationDay {
  int day_of_year;
  Celsius highest, lowest, dew;
  MegajoulesPerSquareMetre shortwave;
  MetresPerSecond wind_2m;
};

// The Ref-ET program's own variants that some published Fallon values rest on: pressure with the exponent g/(R lapse rate),
// Cooper's declination, a solar constant of 1367 W/m2 and the clear sky by air; the rest is the standardized equation.
struct Variant {
  bool ref_et = false;
};

struct ReckonedDay {
  Kilopascals pressure, ea;
  MegajoulesPerSquareMetre ra, rso_simple, rso_by_air, rnl, rn;
  double fcd = 0.0, water_mm = 0.0, short_mm = 0.0, tall_mm = 0.0;
};

ReckonedDay reckon_day(const StationDay& day, Metres elevation, Degrees latitude, Variant variant, bool by_air) {
  ReckonedDay r;
  air::SolarDay solar = air::solar_day(day.day_of_year, latitude);
  r.pressure = air::pressure_at(elevation);
  if (variant.ref_et) {
    using std::numbers::pi;
    r.pressure = Kilopascals{101.3 * std::pow((293.0 - 0.0065 * elevation.value) / 293.0, 9.8 / (0.0065 * 286.9))};
    solar.declination = units::Radians{23.45 * pi / 180.0 * std::sin(2.0 * pi * (284 + day.day_of_year) / 365.0)};
    solar.sunset_angle = air::sunset_angle(latitude, solar.declination);
  }
  r.ra = air::extraterrestrial_daily(solar) * (variant.ref_et ? 1367.0 * 3600e-6 / 4.92 : 1.0);
  r.ea = air::saturation_pressure(day.dew);
  const auto water = air::precipitable_water(r.ea, r.pressure);
  r.water_mm = water.value;
  r.rso_simple = air::clear_sky(r.ra, elevation);
  r.rso_by_air = air::clear_sky_by_air(r.ra, air::daily_sun_elevation(day.day_of_year, latitude), r.pressure, water);
  const Fraction ratio{day.shortwave / (by_air ? r.rso_by_air : r.rso_simple)};
  r.fcd = air::cloudiness_factor(ratio);
  r.rnl = air::net_longwave_daily(day.highest, day.lowest, r.ea, ratio, air::stefan_boltzmann_asce);
  r.rn = air::net_shortwave(day.shortwave) - r.rnl;
  Evaporation e;
  e.temperature = 0.5 * (day.highest + day.lowest);
  e.slope = air::asce_saturation_slope(e.temperature);
  e.psychrometric_constant = air::psychrometric_constant(r.pressure);
  e.deficit = air::vapour_pressure_deficit(air::mean_saturation_pressure(day.highest, day.lowest), r.ea);
  e.wind_2m = day.wind_2m;
  e.net_radiation = r.rn;
  r.short_mm = air::reference_et(e, air::short_reference(air::Step::daily)).total().value;
  r.tall_mm = air::reference_et(e, air::tall_reference(air::Step::daily)).total().value;
  return r;
}

StationDay fallon_day(const Check& c, std::size_t i) {
  const auto value = [&](const char* name) { return c.inputs(name).at(i); };
  return {static_cast<int>(value("doy")),
          from_fahrenheit(value("Tmax_F")),
          from_fahrenheit(value("Tmin_F")),
          from_fahrenheit(value("Tdew_F")),
          MegajoulesPerSquareMetre{value("Rs_langley") * megajoules_per_langley},
          air::wind_at_2m(MetresPerSecond{value("uz_mph") * metres_per_second_per_mph}, fallon_wind_height)};
}

Reckoned one_fallon_day(const Check& c, Variant variant, bool by_air) {
  Reckoned r;
  const StationDay day = fallon_day(c, 0);
  const ReckonedDay reckoned = reckon_day(day, fallon_elevation, fallon_latitude, variant, by_air);
  const air::SolarDay solar = air::solar_day(day.day_of_year, fallon_latitude);
  r.set("P", reckoned.pressure.value);
  r.set("ea_from_Tdew", reckoned.ea.value);
  r.set("es", air::mean_saturation_pressure(day.highest, day.lowest).value);
  r.set("es_slope_2503", air::asce_saturation_slope(0.5 * (day.highest + day.lowest)).value);
  r.set("declination", solar.declination.value);
  r.set("dr", solar.relative_distance);
  r.set("omega_s", solar.sunset_angle.value);
  r.set("Ra", reckoned.ra.value);
  r.set("u2", day.wind_2m.value);
  r.set("precipitable_water_W", reckoned.water_mm);
  r.set("Rso_full", reckoned.rso_by_air.value);
  r.set("Rso_simple", reckoned.rso_simple.value);
  r.set("fcd", reckoned.fcd);
  r.set("Rnl", reckoned.rnl.value);
  r.set("Rn", reckoned.rn.value);
  r.set("ETos", reckoned.short_mm);
  r.set("ETrs", reckoned.tall_mm);
  return r;
}

Reckoned many_fallon_days(const Check& c, Variant variant, bool by_air, double unit_mm) {
  Reckoned r;
  std::vector<double> short_et, tall_et;
  // The published sums in inches are for the same days as the ones in millimetres.
  const Check inputs = c.has_input("Tmax_F") ? c : load("asce_ewri_2005", c.text_input("same_inputs_as"));
  for (std::size_t i = 0; i < inputs.inputs("doy").size(); ++i) {
    const ReckonedDay day = reckon_day(fallon_day(inputs, i), fallon_elevation, fallon_latitude, variant, by_air);
    short_et.push_back(day.short_mm / unit_mm);
    tall_et.push_back(day.tall_mm / unit_mm);
  }
  r.set("ETos", short_et);
  r.set("ETrs", tall_et);
  return r;
}

Reckoned fallon_hours(const Check& c, const std::vector<double>& middles_utc_h) {
  Reckoned r;
  std::vector<double> short_et, tall_et;
  for (std::size_t i = 0; i < middles_utc_h.size(); ++i) {
    const auto value = [&](const char* name) { return c.inputs(name).at(i); };
    using namespace std::chrono;
    const units::UtcTime middle = sys_days{2015y / July / 1} + seconds{std::lround(3600.0 * middles_utc_h[i])};
    const units::Site site{fallon_latitude, fallon_longitude, fallon_elevation};
    const MegajoulesPerSquareMetre ra = air::extraterrestrial(site, middle - minutes{30}, middle + minutes{30});
    const MegajoulesPerSquareMetre rs{value("Rs_langley") * megajoules_per_langley};
    const Kilopascals ea = air::saturation_pressure(from_fahrenheit(value("Tdew_F")));
    Evaporation e;
    e.temperature = from_fahrenheit(value("T_F"));
    e.psychrometric_constant = air::psychrometric_constant(air::pressure_at(fallon_elevation));
    e.deficit = air::vapour_pressure_deficit(air::saturation_pressure(e.temperature), ea);
    e.wind_2m = air::wind_at_2m(MetresPerSecond{value("uz_mph") * metres_per_second_per_mph}, fallon_wind_height);
    const Fraction ratio{rs / air::clear_sky(ra, fallon_elevation)};
    e.net_radiation = air::net_shortwave(rs) - air::net_longwave_hourly(e.temperature, ea, ratio);
    short_et.push_back(air::asce_short_hourly(e).total().value);
    tall_et.push_back(air::asce_tall_hourly(e).total().value);
    r.set("ea", ea.value);
    r.set("es", air::saturation_pressure(e.temperature).value);
    r.set("es_slope_2503", air::asce_saturation_slope(e.temperature).value);
    r.set("Ra", ra.value);
    r.set("u2", e.wind_2m.value);
  }
  r.set("Sc", air::solar_day(182, fallon_latitude).seasonal_correction.value);
  r.set("ETos", short_et);
  r.set("ETrs", tall_et);
  return r;
}

Reckoned greeley(const Check& c) {
  Reckoned r;
  if (c.has_input("Tmean_C")) {
    std::vector<double> slopes;
    for (double t : c.inputs("Tmean_C")) slopes.push_back(air::asce_saturation_slope(Celsius{t}).value);
    r.set("Delta", slopes);
  } else if (c.has_input("hour")) {
    std::vector<double> es;
    for (double t : c.inputs("T_C")) es.push_back(air::saturation_pressure(Celsius{t}).value);
    r.set("es", es);
  } else {
    const Kilopascals pressure = air::pressure_at(Metres{c.input("z_m")});
    r.set("P", pressure.value);
    r.set("gamma", air::psychrometric_constant(pressure).value);
  }
  if (c.has_input("uz_m_s")) {
    const StationDay day{183,  // 1 July of a leap year
                         Celsius{c.input("Tmax_C")},
                         Celsius{c.input("Tmin_C")},
                         air::dew_point(Kilopascals{c.input("ea_kPa")}),
                         MegajoulesPerSquareMetre{c.input("Rs")},
                         air::wind_at_2m(MetresPerSecond{c.input("uz_m_s")}, Metres{c.input("z_wind_m")})};
    const ReckonedDay reckoned = reckon_day(day, Metres{c.input("z_m")}, Degrees{c.input("lat_deg")}, {}, false);
    r.set("ETos", reckoned.short_mm);
    r.set("ETrs", reckoned.tall_mm);
  }
  return r;
}

Reckoned table_1() {
  Reckoned r;
  const auto column = [&](const char* name, auto surface, auto member) {
    std::vector<double> values;
    for (air::Step step : {air::Step::daily, air::Step::hourly_day, air::Step::hourly_night}) values.push_back(surface(step).*member);
    r.set(name, values);
  };
  using air::ReferenceSurface;
  column("Cn_short", air::short_reference, &ReferenceSurface::cn);
  column("Cd_short", air::short_reference, &ReferenceSurface::cd_s_m);
  column("G_over_Rn_short", air::short_reference, &ReferenceSurface::soil_share);
  column("Cn_tall", air::tall_reference, &ReferenceSurface::cn);
  column("Cd_tall", air::tall_reference, &ReferenceSurface::cd_s_m);
  column("G_over_Rn_tall", air::tall_reference, &ReferenceSurface::soil_share);
  return r;
}

}  // namespace

Reckoned asce_ewri(const Check& c) {
  if (c.id() == "table1_constants") return table_1();
  if (c.id() == "fallon.daily.asce") return one_fallon_day(c, {}, false);
  if (c.id() == "fallon.daily.full_rso") return one_fallon_day(c, {.ref_et = true}, true);
  if (c.id() == "fallon.july2015.daily") return many_fallon_days(c, {.ref_et = true}, true, 1.0);
  if (c.id() == "fallon.july2015.agrimet_published") return many_fallon_days(c, {}, false, millimetres_per_inch);
  if (c.id() == "fallon.hourly.asce") return fallon_hours(c, {c.input("time_utc_mid_h")});
  if (c.id() == "fallon.20150701.hourly") return fallon_hours(c, c.inputs("utc_mid_h"));
  return greeley(c);
}

}  // namespace reference
