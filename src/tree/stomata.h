// Stomatal conductance per leaf area as a product of responses, each between 0 and about 1. docs/model/tree.md eqs. (4)-(7b).
// Templates: R is double for one tree, units::Lanes for eight draws at once. All are total functions: any finite input gives a
// finite answer, out-of-range input the answer at the range's end.
#pragma once
#include <algorithm>
#include <cmath>

#include "tree/parameters.h"
#include "tree/viscosity.h"
#include "units/lanes.h"

namespace tree {

// To vapour pressure deficit, 1 at 1 kPa: 1 - m ln D (Oren et al. 1999, Plant, Cell & Environment 22:1515), held below the cap at low D and
// above a floor at high D.
template <class R>
[[nodiscard]] R oren_response(const Stomata& s, R vpd_kpa) {
  using std::log;
  using units::log;
  using units::max;
  return max(R(s.vpd_floor), 1.0 - s.vpd_slope * log(max(vpd_kpa, R(s.vpd_cap_kpa))));
}

// (1 + g1/sqrt(D))/(1 + g1) (Medlyn et al. 2011, Global Change Biology 17:2134), the uptake of carbon left to the other responses. Held
// below the cap at low D. Loss of water never falls as air dries.
template <class R>
[[nodiscard]] R medlyn_response(const Stomata& s, R vpd_kpa) {
  using std::sqrt;
  using units::max;
  using units::sqrt;
  return (1.0 + s.medlyn_g1_sqrt_kpa / sqrt(max(vpd_kpa, R(s.vpd_cap_kpa)))) / (1.0 + s.medlyn_g1_sqrt_kpa);
}

// (1 + D_half^-n)/(1 + (D/D_half)^n): the hyperbola of Lohammar and of Leuning (1995, Plant, Cell & Environment 18:339) with an exponent.
template <class R>
[[nodiscard]] R jarvis_response(const Stomata& s, R vpd_kpa) {
  using std::exp;
  using std::log;
  using units::exp;
  using units::log;
  using units::max;
  const double at_one = 1.0 + std::pow(s.jarvis_half_kpa, -s.jarvis_steepness);
  return at_one / (1.0 + exp(s.jarvis_steepness * log(max(vpd_kpa, R(1e-3)) / s.jarvis_half_kpa)));
}

template <class R>
[[nodiscard]] R vpd_response(VpdForm form, const Stomata& s, R vpd_kpa) {
  switch (form) {
    case VpdForm::medlyn:
      return medlyn_response(s, vpd_kpa);
    case VpdForm::jarvis:
      return jarvis_response(s, vpd_kpa);
    case VpdForm::oren:
      break;
  }
  return oren_response(s, vpd_kpa);
}

// To air temperature: 0 at and beyond temp_min and temp_max, 1 from temp_low to temp_high, parabolic between
// (Jarvis form of BROOK90, Federer 2002).
template <class R>
[[nodiscard]] R temperature_response(const Stomata& s, R temp_c) {
  using units::max;
  using units::min;
  const R below = min(R(1.0), max(R(0.0), (s.temp_low_c - temp_c) / (s.temp_low_c - s.temp_min_c)));
  const R above = min(R(1.0), max(R(0.0), (temp_c - s.temp_high_c) / (s.temp_max_c - s.temp_high_c)));
  return (1.0 - below * below) * (1.0 - above * above);
}

// Mean light response of a crown of leaf area index `lai` under `shortwave_w_m2`, leaves half open at light_half and light
// falling as exp(-k L): ln[(R + R_half)/(R e^{-kL} + R_half)]/(kL). `lai` above 0.
template <class R>
[[nodiscard]] R canopy_light(double light_half_w_m2, R extinction, R shortwave_w_m2, R lai) {
  using std::exp;
  using std::log;
  using units::exp;
  using units::log;
  const R depth = extinction * lai;
  return log((shortwave_w_m2 + light_half_w_m2) / (shortwave_w_m2 * exp(-depth) + light_half_w_m2)) / depth;
}

// The roots' signal of drying soil, which water from ports does not relieve: 1 in moist soil, falling in proportion to relative
// extractable water below `knee`, with a smooth bend of the given sharpness. Never below 0, where the bend would carry it near wilting.
template <class R>
[[nodiscard]] R root_signal(R rew, R knee, R sharpness) {
  using std::exp;
  using std::log;
  using units::exp;
  using units::log;
  using units::max;
  return max(R(0.0), -log(exp(-sharpness) + exp(-sharpness * rew / knee)) / sharpness);
}

// Cold roots: viscosity below 20 C, and a ramp to nothing at 0 C.
template <class R>
[[nodiscard]] R cold_roots(const Stomata& s, R soil_temp_c) {
  using units::max;
  using units::min;
  const R ramp = min(R(1.0), max(R(0.0), soil_temp_c / s.cold_full_c));
  return min(R(1.0), fluidity(max(soil_temp_c, R(0.0)))) * ramp;
}

// Saturated soil: stomata close over the first day of flooding to the share that is left.
[[nodiscard]] inline double flooding_response(const Stomata& s, double saturated_h) {
  return 1.0 - (1.0 - s.flooded_share) * std::clamp(saturated_h / s.flooded_after_h, 0.0, 1.0);
}

}  // namespace tree
