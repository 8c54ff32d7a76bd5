#include "air/sun_position.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace air {
namespace {

using std::numbers::pi;
using units::Degrees;
using units::Site;
using units::UtcTime;

constexpr double sunrise_elevation_deg = -50.0 / 60.0;
constexpr double civil_elevation_deg = -6.0;

double sine(double degrees) { return std::sin(degrees * pi / 180.0); }
double cosine(double degrees) { return std::cos(degrees * pi / 180.0); }
double degrees(double radians) { return radians * 180.0 / pi; }
double wrapped(double angle_deg) { return angle_deg - 360.0 * std::floor(angle_deg / 360.0); }

// Minutes of the equation of time (Smart's series, Meeus 28.3).
double equation_of_time_min(double mean_longitude, double mean_anomaly, double eccentricity, double obliquity) {
  const double y = std::pow(std::tan(0.5 * obliquity * pi / 180.0), 2);
  const double angle = y * sine(2.0 * mean_longitude) - 2.0 * eccentricity * sine(mean_anomaly) +
                       4.0 * eccentricity * y * sine(mean_anomaly) * cosine(2.0 * mean_longitude) -
                       0.5 * y * y * sine(4.0 * mean_longitude) - 1.25 * eccentricity * eccentricity * sine(2.0 * mean_anomaly);
  return 4.0 * degrees(angle);
}

// Lift of the apparent sun by refraction, in degrees; the fits of NOAA's calculator by ranges of elevation.
double refraction_deg(double elevation_deg) {
  constexpr double per_degree = 1.0 / 3600.0;
  const double tangent = std::tan(elevation_deg * pi / 180.0);
  if (elevation_deg > 85.0) return 0.0;
  if (elevation_deg > 5.0) return per_degree * (58.1 / tangent - 0.07 / std::pow(tangent, 3) + 0.000086 / std::pow(tangent, 5));
  if (elevation_deg > -0.575) {
    return per_degree * (1735.0 + elevation_deg * (-518.2 + elevation_deg * (103.4 + elevation_deg * (-12.79 + elevation_deg * 0.711))));
  }
  return per_degree * -20.772 / tangent;
}

// Half the time the sun spends above `elevation_deg`, as an angle; empty when it never crosses.
std::optional<double> half_arc_deg(double elevation_deg, double latitude_deg, double declination_deg) {
  const double cosine_of_arc =
      (sine(elevation_deg) - sine(latitude_deg) * sine(declination_deg)) / (cosine(latitude_deg) * cosine(declination_deg));
  if (!(std::abs(cosine_of_arc) <= 1.0)) return std::nullopt;
  return degrees(std::acos(cosine_of_arc));
}

UtcTime at(UtcTime midnight, double minutes) { return midnight + std::chrono::seconds{std::lround(60.0 * minutes)}; }

// Minutes of UTC after `midnight` at which the sun transits (direction 0), rises (-1) or sets (+1). Declination and equation
// of time move little within the correction, so that a few rounds settle to under a second.
std::optional<double> event_minutes(UtcTime midnight, const Site& site, double elevation_deg, double direction) {
  double minutes = 720.0 - 4.0 * site.longitude.value;
  for (int round = 0; round < 5; ++round) {
    const SolarCoordinates sun = solar_coordinates(julian_century(at(midnight, minutes)));
    double arc = 0.0;
    if (direction != 0.0) {
      const auto half = half_arc_deg(elevation_deg, site.latitude.value, sun.declination.value);
      if (!half) return std::nullopt;
      arc = *half;
    }
    minutes = 720.0 - 4.0 * site.longitude.value - sun.equation_of_time_min + 4.0 * direction * arc;
  }
  return minutes;
}

}  // namespace

double julian_century(UtcTime instant) {
  constexpr UtcTime epoch = std::chrono::sys_days{std::chrono::year{2000} / 1 / 1} + std::chrono::hours{12};
  return static_cast<double>((instant - epoch).count()) / 86400.0 / 36525.0;
}

SolarCoordinates solar_coordinates(double t) {
  const double mean_longitude = wrapped(280.46646 + t * (36000.76983 + t * 0.0003032));
  const double mean_anomaly = 357.52911 + t * (35999.05029 - t * 0.0001537);
  const double node = 125.04 - 1934.136 * t;  // of the moon's orbit: nutation
  SolarCoordinates sun{};
  sun.eccentricity = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
  sun.equation_of_centre = Degrees{sine(mean_anomaly) * (1.914602 - t * (0.004817 + t * 0.000014)) +
                                   sine(2.0 * mean_anomaly) * (0.019993 - t * 0.000101) + sine(3.0 * mean_anomaly) * 0.000289};
  sun.true_longitude = Degrees{wrapped(mean_longitude + sun.equation_of_centre.value)};
  sun.apparent_longitude = Degrees{sun.true_longitude.value - 0.00569 - 0.00478 * sine(node)};
  sun.mean_obliquity = Degrees{23.0 + (26.0 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60.0) / 60.0};
  sun.obliquity = Degrees{sun.mean_obliquity.value + 0.00256 * cosine(node)};
  sun.declination = Degrees{degrees(std::asin(sine(sun.obliquity.value) * sine(sun.apparent_longitude.value)))};
  sun.equation_of_time_min = equation_of_time_min(mean_longitude, mean_anomaly, sun.eccentricity, sun.obliquity.value);
  const double true_anomaly = mean_anomaly + sun.equation_of_centre.value;
  sun.distance_au = 1.000001018 * (1.0 - sun.eccentricity * sun.eccentricity) / (1.0 + sun.eccentricity * cosine(true_anomaly));
  return sun;
}

SunPosition sun_position(UtcTime instant, const Site& site) {
  const SolarCoordinates sun = solar_coordinates(julian_century(instant));
  const double day_min = static_cast<double>((instant - std::chrono::floor<std::chrono::days>(instant)).count()) / 60.0;
  const double hour_angle = (day_min + sun.equation_of_time_min + 4.0 * site.longitude.value) / 4.0 - 180.0;
  const double latitude = site.latitude.value, declination = sun.declination.value;
  const double sine_elevation = sine(latitude) * sine(declination) + cosine(latitude) * cosine(declination) * cosine(hour_angle);
  const double east = -cosine(declination) * sine(hour_angle);
  const double north = cosine(latitude) * sine(declination) - sine(latitude) * cosine(declination) * cosine(hour_angle);
  SunPosition position{};
  position.elevation_geometric = Degrees{degrees(std::asin(std::clamp(sine_elevation, -1.0, 1.0)))};
  position.elevation = Degrees{position.elevation_geometric.value + refraction_deg(position.elevation_geometric.value)};
  position.azimuth = Degrees{wrapped(degrees(std::atan2(east, north)))};
  return position;
}

SunTimes sun_times(units::LocalDay day, const Site& site) {
  const UtcTime midnight{day.time_since_epoch()};
  const auto event = [&](double elevation_deg, double direction) -> std::optional<UtcTime> {
    const auto minutes = event_minutes(midnight, site, elevation_deg, direction);
    return minutes ? std::optional{at(midnight, *minutes)} : std::nullopt;
  };
  SunTimes times{};
  times.transit = at(midnight, *event_minutes(midnight, site, 0.0, 0.0));
  times.sunrise = event(sunrise_elevation_deg, -1.0);
  times.sunset = event(sunrise_elevation_deg, +1.0);
  times.civil_dawn = event(civil_elevation_deg, -1.0);
  times.civil_dusk = event(civil_elevation_deg, +1.0);
  return times;
}

}  // namespace air
