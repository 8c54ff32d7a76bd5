// Sunlight at the ground: under a clear sky, under cloud, from sunshine hours, from the day's range of temperature.
// Energy is for the period of the extraterrestrial radiation handed in (an hour or a day).
// Source: FAO-56 (Allen et al. 1998), chapter 3, unless a function says otherwise.
#pragma once
#include <cmath>

#include "units/lanes.h"
#include "units/quantity.h"

namespace air {

// 1 W/m2 for an hour in MJ/m2.
inline constexpr double megajoules_per_watt_hour = 0.0036;

// Clear-sky radiation by the height of the place (eq. 37). Valid to about 6000 m.
[[nodiscard]] units::MegajoulesPerSquareMetre clear_sky(units::MegajoulesPerSquareMetre extraterrestrial, units::Metres elevation);

// Angstrom's relation (eq. 35) and, with full sunshine, clear sky (eq. 36). The defaults are those printed for places
// without a local calibration.
struct Angstrom {
  double a = 0.25;  // share reaching the ground on an overcast day
  double b = 0.50;  // further share at full sunshine
};
[[nodiscard]] units::MegajoulesPerSquareMetre from_sunshine(units::MegajoulesPerSquareMetre extraterrestrial, units::Fraction of_day_length,
                                                            Angstrom coefficients = {});

// Share of clear-sky radiation left under a cloud cover, 1 - 0.75 c^3.4 (Kasten & Czeplak 1980, Solar Energy 24: 177-189; ten
// years at Hamburg). Too dark in the tropics; says nothing about how thick the cloud is.
template <class R>
[[nodiscard]] R cloud_transmission(R cloud) {
  using std::exp;
  using std::log;
  using units::exp;
  using units::log;
  return 1.0 - 0.75 * exp(3.4 * log(cloud));
}
[[nodiscard]] inline units::Fraction cloud_transmission(units::Fraction cloud) { return units::Fraction{cloud_transmission(cloud.value)}; }
// The cloud cover that leaves a share of clear-sky radiation: its inverse, 1 below the 0.25 that full cloud leaves and 0 above 1.
[[nodiscard]] units::Fraction cloud_at_transmission(units::Fraction transmission);

// Diffuse share of radiation under a cloud cover, 0.3 + 0.7 c^2 (the same paper; from memory).
[[nodiscard]] units::Fraction diffuse_share(units::Fraction cloud);

// Hargreaves' radiation from the day's range of temperature (eq. 50); adjustment 0.16 inland, 0.19 at the coast, 1/sqrt(C).
// Requires maximum >= minimum; never above clear sky by itself, so cap it if the range is extreme.
[[nodiscard]] units::MegajoulesPerSquareMetre from_temperature_range(units::MegajoulesPerSquareMetre extraterrestrial,
                                                                     units::Celsius daily_maximum, units::Celsius daily_minimum,
                                                                     double adjustment);

// Clear-sky radiation from the air's water and the sun's height: beam and diffuse transmission as ASCE-EWRI (2005) appendix D
// prints them. (FAO-56 eq. 3-18 and 3-20 print 0.091, 0.25 and 0.33 instead and give some 6 % more at Fallon.)
[[nodiscard]] units::Millimetres precipitable_water(units::Kilopascals vapour_pressure, units::Kilopascals pressure);  // D.3
// Mean elevation of the sun over a day, weighted by its radiation (eq. D.5). Latitudes of the northern hemisphere to 65.
[[nodiscard]] units::Radians daily_sun_elevation(int day_of_year, units::Degrees latitude);
// `turbidity` 1 for clean air to about 0.5 for very dusty air. Nothing reaches the ground with the sun at or below the horizon.
[[nodiscard]] units::MegajoulesPerSquareMetre clear_sky_by_air(units::MegajoulesPerSquareMetre extraterrestrial,
                                                               units::Radians sun_elevation, units::Kilopascals pressure,
                                                               units::Millimetres precipitable_water, double turbidity = 1.0);

}  // namespace air
