// Sine and cosine of lanes, beside units/lanes.h and for its reasons. Error bound in tests/units/lanes_trig_test.cpp: 2.3e-16 absolute,
// one unit in the last place of 1, for |x| <= 1e5.
#pragma once
#include "units/lanes.h"

namespace units {

struct SineCosine {
  Lanes sine, cosine;
};

namespace detail {

SAPDRAW_INLINE void turn(Lanes::Half shifted, Lanes::Half short_sine, Lanes::Half short_cosine, Lanes::Half& sine, Lanes::Half& cosine) {
  const Lanes::HalfBits quarters = __builtin_bit_cast(Lanes::HalfBits, shifted);
  const Lanes::HalfBits odd = (quarters & 1) != 0;
  const Lanes::HalfBits sine_sign = (quarters & 2) << 62, cosine_sign = ((quarters + 1) & 2) << 62;
  sine = __builtin_bit_cast(Lanes::Half, __builtin_bit_cast(Lanes::HalfBits, odd ? short_cosine : short_sine) ^ sine_sign);
  cosine = __builtin_bit_cast(Lanes::Half, __builtin_bit_cast(Lanes::HalfBits, odd ? short_sine : short_cosine) ^ cosine_sign);
}

}  // namespace detail

// Radians, |x| <= 1e5.
SAPDRAW_INLINE SineCosine sine_cosine(Lanes x) {
  // x = n pi/2 + r with |r| <= pi/4; pi/2 in three parts of 33, 33 and 53 bits, so that n times the first two is exact.
  const Lanes shifter = 6755399441055744.0;  // as in exp: rounds to an integer and leaves it in the low bits
  const Lanes shifted = x * 0.63661977236758134308 + shifter;
  const Lanes n = shifted - shifter;
  const Lanes r = ((x - n * 1.57079632673412561417) - n * 6.07710050630396597660e-11) - n * 2.02226624879595063154e-21;
  // Taylor series: the remainders, r^17 / 17! and r^18 / 18!, are below 5e-17.
  const Lanes r2 = r * r, r4 = r2 * r2, r8 = r4 * r4;
  const Lanes s3 = r2 * (1.0 / 120.0) - 1.0 / 6.0, s7 = r2 * (1.0 / 362880.0) - 1.0 / 5040.0;
  const Lanes s11 = r2 * (1.0 / 6227020800.0) - 1.0 / 39916800.0;
  const Lanes sine = r + r * (r2 * (s3 + r4 * s7 + r8 * (s11 - r4 * (1.0 / 1307674368000.0))));
  const Lanes c4 = 1.0 / 24.0 - r2 * (1.0 / 720.0), c8 = 1.0 / 40320.0 - r2 * (1.0 / 3628800.0);
  const Lanes c12 = 1.0 / 479001600.0 - r2 * (1.0 / 87178291200.0);
  const Lanes cosine = (1.0 - 0.5 * r2) + r4 * (c4 + r4 * c8 + r8 * (c12 + r4 * (1.0 / 20922789888000.0)));
  SineCosine result;
  detail::turn(shifted.low, sine.low, cosine.low, result.sine.low, result.cosine.low);
  detail::turn(shifted.high, sine.high, cosine.high, result.sine.high, result.cosine.high);
  return result;
}

SAPDRAW_INLINE Lanes sin(Lanes x) { return sine_cosine(x).sine; }
SAPDRAW_INLINE Lanes cos(Lanes x) { return sine_cosine(x).cosine; }

}  // namespace units
