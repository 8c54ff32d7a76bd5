// Net radiation of a well-watered grass surface: sunlight kept, less heat radiated to the sky; and the share the soil takes.
// Source: FAO-56 (Allen et al. 1998), eq. 38-46; ASCE-EWRI (2005) where said. Energy per day or per hour as the names say.
#pragma once
#include "units/quantity.h"

namespace air {

// Reflected share of sunlight of the reference surface (FAO-56 eq. 38, ASCE-EWRI 2005).
inline constexpr units::Fraction reference_albedo{0.23};

[[nodiscard]] units::MegajoulesPerSquareMetre net_shortwave(units::MegajoulesPerSquareMetre shortwave,
                                                            units::Fraction albedo = reference_albedo);

// Stefan-Boltzmann constant per day, MJ K-4 m-2 d-1, as each paper prints it; Kelvin = C + 273.16 in both.
struct StefanBoltzmann {
  double mj_k4_m2_d;
};
inline constexpr StefanBoltzmann stefan_boltzmann_fao56{4.903e-9};
inline constexpr StefanBoltzmann stefan_boltzmann_asce{4.901e-9};

// Black-body radiation at a temperature.
[[nodiscard]] units::MegajoulesPerSquareMetre black_body_daily(units::Celsius temperature, StefanBoltzmann = stefan_boltzmann_fao56);

// Net emissivity of the clear sky, 0.34 - 0.14 sqrt(ea) (eq. 39). Falls to 0 at 5.9 kPa; never below.
[[nodiscard]] double humidity_factor(units::Kilopascals vapour_pressure);

// How much of it clouds leave, 1.35 Rs/Rso - 0.35 (eq. 39). Rs/Rso is held to 0.3 (overcast) .. 1 (clear) as ASCE-EWRI (2005)
// eq. 18 prescribes and FAO-56 chapter 4 describes.
[[nodiscard]] double cloudiness_factor(units::Fraction relative_shortwave);

// Net longwave radiation leaving the surface, eq. 39 with the means of a day's extremes, or with an hour's temperature.
[[nodiscard]] units::MegajoulesPerSquareMetre net_longwave_daily(units::Celsius daily_maximum, units::Celsius daily_minimum,
                                                                 units::Kilopascals vapour_pressure, units::Fraction relative_shortwave,
                                                                 StefanBoltzmann = stefan_boltzmann_fao56);
[[nodiscard]] units::MegajoulesPerSquareMetre net_longwave_hourly(units::Celsius temperature, units::Kilopascals vapour_pressure,
                                                                  units::Fraction relative_shortwave);

// Soil heat flux, positive into the soil, MJ/m2 per day.
// Between two soil temperatures `days` apart over a depth of `heat_capacity` MJ/m3/C (eq. 41; the paper prints a sum where the
// difference is meant).
[[nodiscard]] units::MegajoulesPerSquareMetre soil_heat(double heat_capacity_mj_m3_c, units::Metres depth, units::Celsius before,
                                                        units::Celsius after, double days);
// For a month from the mean air temperature of the months beside it (eq. 43), or from the month before and this one (eq. 44).
[[nodiscard]] units::MegajoulesPerSquareMetre soil_heat_between_months(units::Celsius previous, units::Celsius next);
[[nodiscard]] units::MegajoulesPerSquareMetre soil_heat_since_month(units::Celsius previous, units::Celsius current);
// For an hour (eq. 45 by day, 46 by night). Night is where net radiation is negative, so that FAO-56 and ASCE agree on it.
[[nodiscard]] units::MegajoulesPerSquareMetre soil_heat_hourly(units::MegajoulesPerSquareMetre net_radiation);

}  // namespace air
