// The sun over a horizontal surface at the top of the atmosphere: day by day and for any period within a day.
// Everything runs on UTC and longitude; no time zone is needed. Geometry of the sun's centre without refraction.
// Source: FAO-56 (Allen et al. 1998), eq. 21-34. Its declination is good to about half a degree; for clock times of sunrise and
// sunset use air/sun_position.h.
#pragma once
#include "units/quantity.h"
#include "units/site.h"
#include "units/time.h"

namespace air {

// What stays the same for a day at a latitude.
struct SolarDay {
  units::Degrees latitude;
  double relative_distance = 1.0;    // inverse relative distance earth-sun squared, dr (eq. 23)
  units::Radians declination;        // eq. 24
  units::Radians sunset_angle;       // hour angle of sunset, 0 (polar night) .. pi (polar day) (eq. 25)
  units::Hours seasonal_correction;  // how far the sun is ahead of mean solar time, Sc (eq. 32, 33)
};

// `day_of_year` 1..366; latitude -90..90.
[[nodiscard]] SolarDay solar_day(int day_of_year, units::Degrees latitude);
// The same with a declination from elsewhere; eq. 25 gives the sunset angle.
[[nodiscard]] units::Radians sunset_angle(units::Degrees latitude, units::Radians declination);

// The day by mean solar time at a longitude: it begins at the sun's midnight, so no daylight hour falls between two of them.
[[nodiscard]] units::LocalDay solar_date(units::UtcTime instant, units::Degrees longitude);

// Day length (eq. 34).
[[nodiscard]] units::Hours daylight(const SolarDay& day);

// Radiation received outside the atmosphere in a whole day (eq. 21).
[[nodiscard]] units::MegajoulesPerSquareMetre extraterrestrial_daily(const SolarDay& day);

// Solar hour angle at an instant: 0 at solar noon, afternoon positive, -pi..pi (eq. 31 with eq. 32 and 33).
[[nodiscard]] units::Radians hour_angle(const SolarDay& day, units::UtcTime instant, units::Degrees longitude);

// Angle of the sun's centre above the horizon at an hour angle; negative below.
[[nodiscard]] units::Radians elevation_angle(const SolarDay& day, units::Radians hour_angle);

// Radiation received outside the atmosphere from `start` to `end` (eq. 28-30). A period cut by sunrise or sunset is integrated
// over its daylight part only, exactly. Requires start <= end <= start + 24 h; declination and distance are those of the
// solar date at mid-period.
[[nodiscard]] units::MegajoulesPerSquareMetre extraterrestrial(const SolarDay& day, units::UtcTime start, units::UtcTime end,
                                                               units::Degrees longitude);
[[nodiscard]] units::MegajoulesPerSquareMetre extraterrestrial(const units::Site& site, units::UtcTime start, units::UtcTime end);

}  // namespace air
