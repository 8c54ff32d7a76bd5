// Soil water as FAO Irrigation and Drainage Paper 56 keeps its books (Allen, Pereira, Raes & Smith 1998), chapters 7 and 8.
// Depletions count down from field capacity, mm; days are the paper's step, but nothing here knows the step.
#pragma once
#include "units/quantity.h"

namespace soil::fao56 {

// Total available water between field capacity and wilting point over a rooting depth (eq. 82).
[[nodiscard]] units::Millimetres total_available_water(double theta_field_capacity, double theta_wilting, units::Metres rooting_depth);
// Share p of it that is taken without stress, adjusted to the day's ETc and kept in 0.1..0.8 (table 22, note 2; text below eq. 83).
[[nodiscard]] double adjusted_depletion_share(double p_table, units::Millimetres etc_per_day);
// Water stress coefficient (eq. 84), 0..1. `p` < 1.
[[nodiscard]] double stress_coefficient(units::Millimetres total_available, units::Millimetres depletion, double p);

// Total evaporable water of the surface layer (eq. 73), >= 0.
[[nodiscard]] units::Millimetres total_evaporable_water(double theta_field_capacity, double theta_wilting, units::Metres layer);
// Evaporation reduction coefficient (eq. 74), 0..1: stage one while depletion <= readily evaporable, then falling linearly.
[[nodiscard]] double evaporation_reduction(units::Millimetres depletion, units::Millimetres readily_evaporable,
                                           units::Millimetres total_evaporable);

// The weather and height that set the ceiling of evaporation.
struct Climate {
  units::MetresPerSecond wind_2m;  // 1..6
  double rh_min_pct = 45.0;        // 20..80
  units::Metres crop_height;       // mean height, > 0
};
// Upper limit of Kc after wetting (eq. 72).
[[nodiscard]] double kc_max(double kcb, const Climate& climate);
// Share of ground covered by vegetation (eq. 76), 0..0.99. Requires kc_max > kc_min.
[[nodiscard]] double covered_share(double kcb, double kc_min, double kc_max, units::Metres crop_height);
// Share of ground both exposed and wetted (eq. 75), from which most evaporation comes.
[[nodiscard]] double exposed_wet_share(double covered, double wetted);
// Soil evaporation coefficient (eq. 71).
[[nodiscard]] double evaporation_coefficient(double kr, double kcb, double kc_max, double exposed_wet);

// The paper's running books: depletion after a step, and the water that went through (eq. 85, 86, 88; for the surface layer eq. 77, 79).
struct Depletion {
  units::Millimetres end;          // 0..total
  units::Millimetres percolation;  // >= 0
};
// Water is applied first and what is above field capacity percolates, then `loss` is taken: the order of the paper's worked examples 35
// and 38.
[[nodiscard]] Depletion water_then_loss(units::Millimetres start, units::Millimetres water, units::Millimetres loss,
                                        units::Millimetres total);
// Percolation from the day's whole balance, as eq. 88 has it: gives less percolation on a wet day.
[[nodiscard]] Depletion daily_balance(units::Millimetres start, units::Millimetres water, units::Millimetres loss,
                                      units::Millimetres total);

}  // namespace soil::fao56
