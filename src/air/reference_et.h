// Reference evapotranspiration: how much water a defined, well-watered surface gives to this air.
// Sources: FAO-56 (Allen et al. 1998) eq. 6, 52, 53; ASCE-EWRI (2005) The ASCE Standardized Reference Evapotranspiration Equation,
// eq. 1 and table 1. Results may be slightly negative at night (dew); they are not cut off.
#pragma once
#include "units/quantity.h"

namespace air {

// Latent heat of vaporisation as both papers fix it: 1 / 2.45, printed 0.408 mm per MJ/m2.
inline constexpr double millimetres_per_megajoule = 0.408;

// What the Penman-Monteith form needs, energy over the same day or hour.
struct Evaporation {
  units::Celsius temperature;  // mean of the period
  units::KilopascalsPerKelvin slope;
  units::KilopascalsPerKelvin psychrometric_constant;
  units::Kilopascals deficit;
  units::MetresPerSecond wind_2m;
  units::MegajoulesPerSquareMetre net_radiation;
  units::MegajoulesPerSquareMetre soil_heat;
};

// Numerator and denominator constants of ASCE-EWRI (2005) table 1; FAO-56's are among them.
struct ReferenceSurface {
  double cn;          // K mm s3 Mg-1 per day or hour
  double cd_s_m;      // s/m
  double soil_share;  // soil heat flux over net radiation
};
enum class Step { daily, hourly_day, hourly_night };
[[nodiscard]] ReferenceSurface short_reference(Step step);  // clipped grass 0.12 m
[[nodiscard]] ReferenceSurface tall_reference(Step step);   // alfalfa 0.50 m
// FAO-56 eq. 53; its soil heat is eq. 45 and 46 (air/net_radiation.h).
inline constexpr ReferenceSurface fao56_hourly_grass{37.0, 0.34, 0.0};

// The two parts of the sum: what radiation drives and what dry, moving air drives.
struct ReferenceEt {
  units::Millimetres from_radiation;
  units::Millimetres from_dry_air;
  [[nodiscard]] units::Millimetres total() const { return from_radiation + from_dry_air; }
};
[[nodiscard]] ReferenceEt reference_et(const Evaporation& evaporation, const ReferenceSurface& surface);

[[nodiscard]] ReferenceEt fao56_daily(const Evaporation& evaporation);   // eq. 6
[[nodiscard]] ReferenceEt fao56_hourly(const Evaporation& evaporation);  // eq. 53: 0.34 by day and by night

// ASCE-EWRI hourly: night where net radiation is negative; soil heat follows from net radiation by table 1 and the slope is
// ASCE's (eq. 5, 2503 where FAO-56 has 4098 x 0.6108), so both are taken from here and not from `evaporation`.
[[nodiscard]] ReferenceEt asce_short_hourly(Evaporation evaporation);
[[nodiscard]] ReferenceEt asce_tall_hourly(Evaporation evaporation);
[[nodiscard]] units::KilopascalsPerKelvin asce_saturation_slope(units::Celsius temperature);

// Hargreaves' evapotranspiration of a day from temperature alone (eq. 52); extraterrestrial radiation of the day.
[[nodiscard]] units::Millimetres hargreaves_daily(units::Celsius daily_maximum, units::Celsius daily_minimum,
                                                  units::MegajoulesPerSquareMetre extraterrestrial);

}  // namespace air
