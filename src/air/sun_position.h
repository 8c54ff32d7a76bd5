// Where the sun stands, and when it rises and sets: for clock times, shade and a crew's daylight.
// Low-order theory of the sun after J. Meeus (1998) Astronomical Algorithms, 2nd ed., chapters 25 and 28, in the form the NOAA
// Global Monitoring Laboratory publishes for its solar calculator. Good to 0.01 degree and a few seconds of time for 1900-2100
// at latitudes up to 65; near the polar circles rise and set lose meaning by minutes.
#pragma once
#include <optional>

#include "units/quantity.h"
#include "units/site.h"
#include "units/time.h"

namespace air {

// Orbit quantities at an instant, in Julian centuries of 36525 days from 2000-01-01 12:00.
struct SolarCoordinates {
  double eccentricity;
  units::Degrees equation_of_centre;
  units::Degrees true_longitude;
  units::Degrees apparent_longitude;
  units::Degrees mean_obliquity;
  units::Degrees obliquity;  // corrected for nutation
  units::Degrees declination;
  double equation_of_time_min;  // apparent less mean solar time
  double distance_au;
};
[[nodiscard]] double julian_century(units::UtcTime instant);
[[nodiscard]] SolarCoordinates solar_coordinates(double julian_century);

struct SunPosition {
  units::Degrees elevation_geometric;  // of the centre, without refraction
  units::Degrees elevation;            // as seen, with standard refraction (1013 hPa, 10 C)
  units::Degrees azimuth;              // clockwise from north, 0..360
};
[[nodiscard]] SunPosition sun_position(units::UtcTime instant, const units::Site& site);

// Sunrise and sunset: the centre 50' below the horizon (34' refraction and 16' radius), an open horizon at sea level.
// Civil dawn and dusk: the centre 6 degrees below; a crew can see to work between them.
// Each is empty where the sun does not cross that height on that day (polar day or night).
struct SunTimes {
  units::UtcTime transit;  // solar noon
  std::optional<units::UtcTime> sunrise, sunset;
  std::optional<units::UtcTime> civil_dawn, civil_dusk;
};
// `day` is the calendar day at the place by mean solar time: sunrise lies before its noon, sunset after it, whatever UTC day
// either falls on. Wherever legal time is within some hours of solar time this is the civil day.
[[nodiscard]] SunTimes sun_times(units::LocalDay day, const units::Site& site);

}  // namespace air
