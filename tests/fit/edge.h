// The bar of a fact as two soft edges: what the model says may be off by `blur` (sd), and the chance that it is in spite of that on the
// right side of an edge `distance` away is Phi(distance/blur).
#pragma once
#include <cmath>
#include <numbers>

namespace fit {

[[nodiscard]] inline double normal_share(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

// The edge as a residual of least squares: sqrt(-2 ln Phi(z)), z = distance/blur, which is 0 far inside and -z far outside. NaN counts as
// infinitely far outside. Below -20 Phi is taken from its asymptote, phi(z)/-z.
[[nodiscard]] inline double edge_residual(double z) {
  if (std::isnan(z)) return HUGE_VAL;
  if (z < -20.0) return std::sqrt(z * z + std::log(2.0 * std::numbers::pi * z * z));
  return std::sqrt(-2.0 * std::log(normal_share(z)));
}

}  // namespace fit
