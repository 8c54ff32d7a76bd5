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
using air::SolarDay;
using units::Celsius;
using units::Degrees;
using units::Fraction;
using units::Kilopascals;
using units::MegajoulesPerSquareMetre;
using units::Metres;
using units::MetresPerSecond;

constexpr double degree = std::numbers::pi / 180.0;

int ordinary_day_of_year(double month, double day) {
  using namespace std::chrono;
  return units::day_of_year(units::LocalDay{year{2015} / static_cast<int>(month) / static_cast<int>(day)});
}

double latitude_deg(const Check& c) {
  if (c.has_input("lat_min")) return c.input("lat_deg") + c.input("lat_min") / 60.0;
  return c.input("lat_deg");
}

int day_of_year(const Check& c) {
  return c.has_input("J") ? static_cast<int>(c.input("J")) : ordinary_day_of_year(c.input("month"), c.input("day"));
}

// The extremes of a day and what eq. 39 makes of them.
void longwave(Reckoned& r, Celsius highest, Celsius lowest, Kilopascals ea, double relative_shortwave) {
  const double warm = air::black_body_daily(highest).value, cool = air::black_body_daily(lowest).value;
  r.set("TmaxK", highest.value + 273.16);
  r.set("TminK", lowest.value + 273.16);
  r.set("sigmaTmaxK4", warm);
  r.set("sigmaTminK4", cool);
  r.set("sigma_mean", 0.5 * (warm + cool));
  r.set("humidity_term", air::humidity_factor(ea));
  r.set("Rs_over_Rso", relative_shortwave);
  r.set("cloud_term", air::cloudiness_factor(Fraction{relative_shortwave}));
  r.set("Rnl", air::net_longwave_daily(highest, lowest, ea, Fraction{relative_shortwave}).value);
}

void solar(Reckoned& r, const SolarDay& day) {
  const double phi = day.latitude.value * degree, delta = day.declination.value;
  r.set("phi", phi);
  r.set("dr", day.relative_distance);
  r.set("delta", delta);
  r.set("omega_s", day.sunset_angle.value);
  r.set("sinphi_sindelta", std::sin(phi) * std::sin(delta));
  r.set("cosphi_cosdelta", std::cos(phi) * std::cos(delta));
  r.set("Ra", air::extraterrestrial_daily(day).value);
  r.set("Ra_equiv", air::millimetres_per_megajoule * air::extraterrestrial_daily(day).value);
  r.set("N", air::daylight(day).value);
}

// The shares and terms the worked examples print on the way to their result, and the result.
void evapotranspiration(Reckoned& r, const Evaporation& e, const air::ReferenceEt& et, double cn) {
  const double resistance = 1.0 + 0.34 * e.wind_2m.value;
  const double divisor = e.slope.value + e.psychrometric_constant.value * resistance;
  r.set("Delta", e.slope.value);
  r.set("gamma", e.psychrometric_constant.value);
  r.set("vpd", e.deficit.value);
  r.set("one_plus_034u2", resistance);
  r.set("Delta_share", e.slope.value / divisor);
  r.set("gamma_share", e.psychrometric_constant.value / divisor);
  r.set("c900_term", cn / (e.temperature.value + 273.0) * e.wind_2m.value);
  r.set("Rn", e.net_radiation.value);
  r.set("Rn_equiv", air::millimetres_per_megajoule * e.net_radiation.value);
  r.set("G", e.soil_heat.value);
  r.set("Rn_minus_G", (e.net_radiation - e.soil_heat).value);
  r.set("Rn_minus_G_equiv", air::millimetres_per_megajoule * (e.net_radiation - e.soil_heat).value);
  r.set("radiation_term", et.from_radiation.value);
  r.set("aero_term", et.from_dry_air.value);
  r.set("ETo", et.total().value);
}

Reckoned radiation_without_measurement(const Check& c) {  // Examples 8-10, 15, 16
  Reckoned r;
  const SolarDay day = air::solar_day(day_of_year(c), Degrees{latitude_deg(c)});
  const MegajoulesPerSquareMetre ra = air::extraterrestrial_daily(day);
  solar(r, day);
  r.set("J", day_of_year(c));
  r.set("lat_dd", latitude_deg(c));
  r.set("lat_rad", latitude_deg(c) * degree);
  MegajoulesPerSquareMetre rs;
  if (c.has_input("n_month_h")) {
    const double n = c.input("n_month_h") / c.input("days");
    rs = air::from_sunshine(ra, Fraction{n / air::daylight(day).value}, {c.input("as"), c.input("bs")});
    r.set("n", n);
  }
  if (c.has_input("kRs")) {
    rs = air::from_temperature_range(ra, Celsius{c.input("Tmax_C")}, Celsius{c.input("Tmin_C")}, c.input("kRs"));
    r.set("dT", c.input("Tmax_C") - c.input("Tmin_C"));
  }
  r.set("Rs", rs.value);
  r.set("Rs_over_Ra", rs / ra);
  r.set("Rs_equiv", air::millimetres_per_megajoule * rs.value);
  if (c.has_input("ea_kPa")) {
    const MegajoulesPerSquareMetre rso = air::clear_sky(ra, Metres{c.input("z_m")});
    const Celsius highest{c.input("Tmax_C")}, lowest{c.input("Tmin_C")};
    longwave(r, highest, lowest, Kilopascals{c.input("ea_kPa")}, rs / rso);
    const double rns = air::net_shortwave(rs).value;
    const double rn = rns - r.at("Rnl").at(0);
    r.set("Rso_eq36", rso.value);
    r.set("Rns", rns);
    r.set("Rn", rn);
    r.set("Rn_equiv", air::millimetres_per_megajoule * rn);
  }
  return r;
}

Reckoned humidity_examples(const Check& c) {  // Examples 2-7
  Reckoned r;
  if (c.has_input("z_m")) {
    const Kilopascals pressure = air::pressure_at(Metres{c.input("z_m")});
    r.set("P", pressure.value);
    r.set("gamma", air::psychrometric_constant(pressure).value);
    if (c.has_input("Twet_C")) {
      const air::Bulbs bulbs{Celsius{c.input("Tdry_C")}, Celsius{c.input("Twet_C")}};
      r.set("e0_Twet", air::saturation_pressure(bulbs.wet).value);
      r.set("ea", air::psychrometer_vapour_pressure(bulbs, pressure, air::Ventilation::assmann_5_m_s).value);
    }
  }
  if (c.has_input("T_C")) r.set("e0", air::saturation_pressure(Celsius{c.input("T_C")}).value);
  if (c.has_input("Tmax_C")) {
    const Celsius highest{c.input("Tmax_C")}, lowest{c.input("Tmin_C")};
    r.set("e0_Tmax", air::saturation_pressure(highest).value);
    r.set("e0_Tmin", air::saturation_pressure(lowest).value);
    r.set("es", air::mean_saturation_pressure(highest, lowest).value);
    if (c.has_input("RHmax_pct")) {
      const double most = c.input("RHmax_pct") / 100.0, least = c.input("RHmin_pct") / 100.0;
      r.set("ea_eq17", air::daily_vapour_pressure(highest, lowest, {Fraction{most}, Fraction{least}}).value);
      r.set("ea_eq19_RHmean", air::daily_vapour_pressure(highest, lowest, Fraction{0.5 * (most + least)}).value);
    }
  }
  if (c.has_input("e0_Tmin_kPa")) {
    const Kilopascals es{0.5 * (c.input("e0_Tmin_kPa") + c.input("e0_Tmax_kPa"))};
    r.set("vpd", air::vapour_pressure_deficit(es, Kilopascals{c.input("ea_kPa")}).value);
  }
  if (c.has_input("ventilation")) {
    using air::Ventilation;
    std::vector<double> coefficients;
    for (Ventilation v : {Ventilation::assmann_5_m_s, Ventilation::natural_1_m_s, Ventilation::indoors_still})
      coefficients.push_back(air::psychrometer_coefficient_per_c(v));
    r.set("a_psy_per_C", coefficients);
  }
  if (c.has_input("sign")) {
    const double latitude = c.input("sign") * (c.input("deg") + c.input("min") / 60.0);
    const SolarDay day = air::solar_day(1, Degrees{latitude});
    r.set("lat_deg", day.latitude.value);
    r.set("lat_rad", day.latitude.value * degree);
  }
  return r;
}

Reckoned net_radiation_examples(const Check& c) {  // Examples 11-14
  Reckoned r;
  if (c.id() == "ex11.Rnl") {
    const MegajoulesPerSquareMetre ra{c.input("Ra")}, rso = air::from_sunshine(ra, Fraction{1.0});
    longwave(r, Celsius{c.input("Tmax_C")}, Celsius{c.input("Tmin_C")}, Kilopascals{c.input("ea_kPa")}, c.input("Rs") / rso.value);
    r.set("Rso_eq36", rso.value);
    r.set("Rnl_equiv", air::millimetres_per_megajoule * r.at("Rnl").at(0));
  } else if (c.id() == "ex12.Rn") {
    const double rns = air::net_shortwave(MegajoulesPerSquareMetre{c.input("Rs")}, Fraction{c.input("albedo")}).value;
    r.set("Rns", rns);
    r.set("Rn", rns - c.input("Rnl"));
    // The example converts the net radiation it printed, 7.6.
    r.set("Rn_equiv", air::millimetres_per_megajoule * c.expected("Rn"));
  } else if (c.id() == "ex13.G_month") {
    const double g = air::soil_heat_between_months(Celsius{c.input("T_prev_C")}, Celsius{c.input("T_next_C")}).value;
    r.set("G", g);
    r.set("G_equiv", air::millimetres_per_megajoule * g);
  } else if (c.id() == "ex14.u2") {
    r.set("factor", air::wind_factor_to_2m(Metres{c.input("z_m")}));
    r.set("u2", air::wind_at_2m(MetresPerSecond{c.input("uz_m_s")}, Metres{c.input("z_m")}).value);
  }
  return r;
}

// Sets pressure, slope and psychrometric constant of a daily example.
Evaporation daily_start(Reckoned& r, const Check& c, MetresPerSecond wind) {
  const Celsius highest{c.input("Tmax_C")}, lowest{c.input("Tmin_C")}, mean = 0.5 * (highest + lowest);
  const Kilopascals pressure = air::pressure_at(Metres{c.input("z_m")});
  r.set("Tmean", mean.value);
  r.set("P", pressure.value);
  r.set("e0_Tmax", air::saturation_pressure(highest).value);
  r.set("e0_Tmin", air::saturation_pressure(lowest).value);
  r.set("es", air::mean_saturation_pressure(highest, lowest).value);
  Evaporation e;
  e.temperature = mean;
  e.slope = air::saturation_slope(mean);
  e.psychrometric_constant = air::psychrometric_constant(pressure);
  e.wind_2m = wind;
  return e;
}

void daily_radiation(Reckoned& r, Evaporation& e, const Check& c, Kilopascals ea, MegajoulesPerSquareMetre ra,
                     MegajoulesPerSquareMetre rs) {
  const MegajoulesPerSquareMetre rso = air::clear_sky(ra, Metres{c.input("z_m")}), rns = air::net_shortwave(rs);
  longwave(r, Celsius{c.input("Tmax_C")}, Celsius{c.input("Tmin_C")}, ea, rs / rso);
  e.deficit = air::vapour_pressure_deficit(Kilopascals{r.at("es").at(0)}, ea);
  e.net_radiation = rns - MegajoulesPerSquareMetre{r.at("Rnl").at(0)};
  r.set("Rs", rs.value);
  r.set("Rs_over_Ra", rs / ra);
  r.set("Rso", rso.value);
  r.set("Rns", rns.value);
}

Reckoned daily_example(const Check& c) {  // Examples 17, 18, 20
  Reckoned r;
  MetresPerSecond wind;
  if (c.has_input("uz_km_h")) {
    const MetresPerSecond measured{c.input("uz_km_h") / 3.6};
    const Metres height{c.input("z_wind_m")};
    wind = air::wind_at_2m(measured, height);
    r.set("uz", measured.value);
    r.set("wind_factor", air::wind_factor_to_2m(height));
    r.set("u2", wind.value);
  } else {
    wind = MetresPerSecond{c.has_input("u2_m_s") ? c.input("u2_m_s") : c.input("u2_m_s_assumed")};
  }
  Evaporation e = daily_start(r, c, wind);
  const Celsius highest{c.input("Tmax_C")}, lowest{c.input("Tmin_C")};
  const SolarDay day = air::solar_day(day_of_year(c), Degrees{latitude_deg(c)});
  const MegajoulesPerSquareMetre ra = air::extraterrestrial_daily(day);
  solar(r, day);
  r.set("J", day_of_year(c));
  Kilopascals ea;
  MegajoulesPerSquareMetre rs;
  if (c.has_input("n_h")) {
    const double share = c.input("n_h") / air::daylight(day).value;
    rs = air::from_sunshine(ra, Fraction{share});
    r.set("n_over_N", share);
    ea = c.has_input("ea_kPa") ? Kilopascals{c.input("ea_kPa")}
                               : air::daily_vapour_pressure(
                                     highest, lowest, {Fraction{c.input("RHmax_pct") / 100.0}, Fraction{c.input("RHmin_pct") / 100.0}});
  } else {
    rs = air::from_temperature_range(ra, highest, lowest, c.input("kRs"));
    ea = air::saturation_pressure(lowest);  // eq. 48: dew point taken as the daily minimum
    r.set("RHmin", 100.0 * (ea / air::saturation_pressure(highest)));
    r.set("RHmean", 50.0 * (1.0 + ea / air::saturation_pressure(highest)));
  }
  r.set("ea", ea.value);
  daily_radiation(r, e, c, ea, ra, rs);
  if (c.has_input("Tprev_C")) {
    e.soil_heat = air::soil_heat_since_month(Celsius{c.input("Tprev_C")}, Celsius{c.input("Tmonth_C")});
    r.set("G_eq44", e.soil_heat.value);
  }
  evapotranspiration(r, e, air::fao56_daily(e), 900.0);
  r.set("ETo_hargreaves_eq52", air::hargreaves_daily(highest, lowest, ra).value);
  for (const double other : {1.0, 3.0}) {
    Evaporation with_other_wind = e;
    with_other_wind.wind_2m = MetresPerSecond{other};
    r.set(other < 2.0 ? "ETo_u2_1" : "ETo_u2_3", air::fao56_daily(with_other_wind).total().value);
  }
  return r;
}

Reckoned hourly_example(const Check& c) {  // Example 19
  Reckoned r;
  const SolarDay day = air::solar_day(day_of_year(c), Degrees{latitude_deg(c)});
  solar(r, day);
  r.set("J", day_of_year(c));
  r.set("b", 2.0 * std::numbers::pi * (day_of_year(c) - 81) / 364.0);
  r.set("Sc", day.seasonal_correction.value);
  // The zone's clock runs Lz/15 hours behind UTC.
  using namespace std::chrono;
  const auto clock = seconds{std::lround(3600.0 * (c.input("t_mid") + c.input("Lz_deg_west") / 15.0))};
  const units::UtcTime middle = sys_days{year{2015} / 10 / 1} + clock;
  const units::UtcTime start = middle - minutes{30}, end = middle + minutes{30};
  const Degrees longitude{-c.input("lon_deg_west")};
  r.set("omega", air::hour_angle(day, middle, longitude).value);
  r.set("omega1", air::hour_angle(day, start, longitude).value);
  r.set("omega2", air::hour_angle(day, end, longitude).value);
  const units::Site site{day.latitude, longitude, Metres{c.input("z_m")}};
  const MegajoulesPerSquareMetre ra = air::extraterrestrial(site, start, end), rso = air::clear_sky(ra, site.elevation);
  const MegajoulesPerSquareMetre rs{c.input("Rs")};
  const double ratio = c.has_input("Rs_over_Rso_assumed") ? c.input("Rs_over_Rso_assumed") : rs / rso;
  const Celsius temperature{c.input("Thr_C")};
  const Kilopascals es = air::saturation_pressure(temperature), ea = air::vapour_pressure(temperature, Fraction{c.input("RH_pct") / 100.0});
  Evaporation e;
  e.temperature = temperature;
  e.slope = air::saturation_slope(temperature);
  e.psychrometric_constant = air::psychrometric_constant(air::pressure_at(site.elevation));
  e.deficit = air::vapour_pressure_deficit(es, ea);
  e.wind_2m = MetresPerSecond{c.input("u2_m_s")};
  const MegajoulesPerSquareMetre rns = air::net_shortwave(rs), rnl = air::net_longwave_hourly(temperature, ea, Fraction{ratio});
  e.net_radiation = rns - rnl;
  e.soil_heat = air::soil_heat_hourly(e.net_radiation);
  r.set("e0_T", es.value);
  r.set("ea", ea.value);
  r.set("Ra", ra.value);
  r.set("Rso", rso.value);
  r.set("Rns", rns.value);
  r.set("Rnl", rnl.value);
  r.set("sigmaTK4", air::black_body_daily(temperature).value / 24.0);
  r.set("humidity_term", air::humidity_factor(ea));
  r.set("Rs_over_Rso", ratio);
  r.set("cloud_term", air::cloudiness_factor(Fraction{ratio}));
  evapotranspiration(r, e, air::fao56_hourly(e), 37.0);
  return r;
}

template <class Function>
std::vector<double> each(const std::vector<double>& inputs, Function function) {
  std::vector<double> values;
  for (double input : inputs) values.push_back(function(input));
  return values;
}

}  // namespace

Reckoned fao56_chapter3(const Check& c) {
  if (c.has_input("lat_deg") && !c.has_input("sign")) return radiation_without_measurement(c);
  const int example = std::stoi(c.id().substr(2));
  return example < 11 ? humidity_examples(c) : net_radiation_examples(c);
}

Reckoned fao56_chapter4(const Check& c) { return c.has_input("Thr_C") ? hourly_example(c) : daily_example(c); }

Reckoned fao56_annex2(const Check& c) {
  Reckoned r;
  if (c.has_input("lat_deg")) {
    const auto day = [&](double j) { return air::solar_day(static_cast<int>(j), Degrees{c.input("lat_deg")}); };
    r.set("Ra", each(c.inputs("J"), [&](double j) { return air::extraterrestrial_daily(day(j)).value; }));
    r.set("N", each(c.inputs("J"), [&](double j) { return air::daylight(day(j)).value; }));
  } else if (c.has_input("month")) {
    const auto months = c.inputs("month"), days = c.inputs("day");
    std::vector<double> numbers;
    for (std::size_t i = 0; i < months.size(); ++i) numbers.push_back(ordinary_day_of_year(months[i], days.at(i)));
    r.set("J", numbers);
  } else if (c.has_input("T_C")) {
    r.set("es", each(c.inputs("T_C"), [](double t) { return air::saturation_pressure(Celsius{t}).value; }));
    r.set("Delta", each(c.inputs("T_C"), [](double t) { return air::saturation_slope(Celsius{t}).value; }));
    r.set("sigmaT4", each(c.inputs("T_C"), [](double t) { return air::black_body_daily(Celsius{t}).value; }));
  } else {
    const auto pressure = [](double z) { return air::pressure_at(Metres{z}); };
    r.set("P", each(c.inputs("z_m"), [&](double z) { return pressure(z).value; }));
    r.set("gamma", each(c.inputs("z_m"), [&](double z) { return air::psychrometric_constant(pressure(z)).value; }));
    r.set("factor", each(c.inputs("z_m"), [](double z) { return air::wind_factor_to_2m(Metres{z}); }));
  }
  return r;
}

}  // namespace reference
