// What the day of the year alone says about the sun, as a kernel: for one day and for lanes of days. air/sun.h wraps it in types.
// Source: FAO-56 (Allen et al. 1998), eq. 23, 24, 28, 32, 33.
#pragma once
#include <cmath>
#include <numbers>

#include "units/lanes_trig.h"

namespace air {

inline constexpr double hours_per_radian = 12.0 / std::numbers::pi;

// The solar constant, 0.0820 MJ m-2 min-1, over the time in which the hour angle grows by one radian: the factor of eq. 28.
inline constexpr double solar_constant_mj_m2_rad = hours_per_radian * 60.0 * 0.0820;

template <class R>
struct SolarTerms {
  R relative_distance;      // inverse relative distance earth-sun squared, dr (eq. 23)
  R declination_rad;        // eq. 24
  R seasonal_correction_h;  // Sc (eq. 32, 33)
};

// `day_of_year` 1..366.
template <class R>
[[nodiscard]] SAPDRAW_INLINE SolarTerms<R> solar_terms(R day_of_year) {
  using std::cos;
  using std::sin;
  using units::cos;
  using units::sin;
  constexpr double turn = 2.0 * std::numbers::pi;
  const R year_angle = turn * day_of_year / 365.0;
  const R b = turn * (day_of_year - 81.0) / 364.0;  // eq. 33
  return {1.0 + 0.033 * cos(year_angle), 0.409 * sin(year_angle - 1.39), 0.1645 * sin(2.0 * b) - 0.1255 * cos(b) - 0.025 * sin(b)};
}

}  // namespace air
