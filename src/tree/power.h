// x^p for exponents that are whole or half numbers, as vulnerability and closure curves use them: multiplications and one root
// instead of a logarithm and an exponential in the innermost loop.
#pragma once
#include <cmath>

#include "units/lanes.h"

namespace tree {

// x^(halves/2) for x >= 0 and halves >= 0.
template <class R>
[[nodiscard]] SAPDRAW_INLINE R half_power(R x, int halves) {
  using std::sqrt;
  using units::sqrt;
  R product = halves % 2 != 0 ? sqrt(x) : R(1.0);
  for (int whole = halves / 2; whole > 0; --whole) product = product * x;
  return product;
}

// The exponent of a curve in halves; models/ keeps it a multiple of one half.
[[nodiscard]] inline int halves_of(double exponent) { return static_cast<int>(std::lround(2.0 * exponent)); }

}  // namespace tree
