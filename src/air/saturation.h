// Saturation vapour pressure as a kernel: for one number, for arrays and for lanes alike. air/humidity.h wraps it in types.
#pragma once
#include <cmath>

#include "units/lanes.h"

namespace air {

// Where the curve of eq. 11 would have its pole, below 0 C.
inline constexpr double saturation_pole_c = 237.3;

// Over liquid water, kPa, at `temp_c` within -60..60 C (FAO-56 eq. 11).
template <class R>
[[nodiscard]] SAPDRAW_INLINE R saturation_kpa(R temp_c) {
  using std::exp;
  using units::exp;
  return 0.6108 * exp(17.27 * temp_c / (temp_c + saturation_pole_c));
}

// The exponential of eq. 11 and the reciprocal it shares with the slope of the curve, for kernels that need pressure and slope.
template <class R>
struct SaturationTerms {
  R growth;         // saturation pressure over 0.6108 kPa
  R per_from_pole;  // 1 / (T + 237.3)
};
template <class R>
[[nodiscard]] SAPDRAW_INLINE SaturationTerms<R> saturation_terms(R temp_c, R per_from_pole) {
  using std::exp;
  using units::exp;
  return {exp(17.27 * temp_c * per_from_pole), per_from_pole};
}
template <class R>
[[nodiscard]] SAPDRAW_INLINE SaturationTerms<R> saturation_terms(R temp_c) {
  return saturation_terms<R>(temp_c, 1.0 / (temp_c + saturation_pole_c));
}
template <class R>
[[nodiscard]] SAPDRAW_INLINE R saturation_kpa(SaturationTerms<R> terms) {
  return 0.6108 * terms.growth;
}
// FAO-56 eq. 13.
template <class R>
[[nodiscard]] SAPDRAW_INLINE R saturation_slope_kpa_c(SaturationTerms<R> terms) {
  return 4098.0 * saturation_kpa(terms) * (terms.per_from_pole * terms.per_from_pole);
}
// ASCE-EWRI (2005) eq. 5.
template <class R>
[[nodiscard]] SAPDRAW_INLINE R asce_saturation_slope_kpa_c(SaturationTerms<R> terms) {
  return 2503.0 * terms.growth * (terms.per_from_pole * terms.per_from_pole);
}

}  // namespace air
