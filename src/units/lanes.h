// Eight doubles that move together, so that one formula serves one draw (R = double) and many (R = Lanes).
// Formulas are templates that call exp, log, sqrt, min, max and select unqualified; the overloads here carry them to lanes.
// Own polynomials, because libm has no vector form that gives the same bits on every machine; their error is bounded in
// tests/units/lanes_test.cpp (exp: 2e-16 relative plus argument rounding, log: 3e-16 relative to max(1, |log|)).
#pragma once
#include <cmath>
#include <cstdint>

#define SAPDRAW_INLINE [[gnu::always_inline]] inline

namespace units {

// Two vectors of four, which is what AVX2 holds: GCC 12 takes comparisons of wider ones apart into single doubles.
// Aligned by hand: the compiler would align the vectors only as far as the narrowest target it builds for, and the wide clones of
// uptake/ensemble.cpp load them whole.
struct alignas(64) Lanes {
  static constexpr int count = 8;
  typedef double Half [[gnu::vector_size(32)]];
  typedef std::int64_t HalfBits [[gnu::vector_size(32)]];
  // Of comparisons: all bits of a lane set where it holds.
  struct Mask {
    HalfBits low, high;
  };

  Half low, high;

  Lanes() = default;
  SAPDRAW_INLINE Lanes(double all)
      : low{all, all, all, all}, high{all, all, all, all} {}  // implicit: constants of a formula mix with lanes
  SAPDRAW_INLINE Lanes(Half first, Half second) : low(first), high(second) {}

  SAPDRAW_INLINE double operator[](int lane) const { return lane < 4 ? low[lane] : high[lane - 4]; }
  SAPDRAW_INLINE void set(int lane, double value) {
    if (lane < 4)
      low[lane] = value;
    else
      high[lane - 4] = value;
  }

  SAPDRAW_INLINE friend Lanes operator+(Lanes a, Lanes b) { return {a.low + b.low, a.high + b.high}; }
  SAPDRAW_INLINE friend Lanes operator-(Lanes a, Lanes b) { return {a.low - b.low, a.high - b.high}; }
  SAPDRAW_INLINE friend Lanes operator*(Lanes a, Lanes b) { return {a.low * b.low, a.high * b.high}; }
  SAPDRAW_INLINE friend Lanes operator/(Lanes a, Lanes b) { return {a.low / b.low, a.high / b.high}; }
  SAPDRAW_INLINE friend Lanes operator-(Lanes a) { return {-a.low, -a.high}; }
  SAPDRAW_INLINE friend Mask operator<(Lanes a, Lanes b) { return {a.low < b.low, a.high < b.high}; }
  SAPDRAW_INLINE friend Mask operator<=(Lanes a, Lanes b) { return {a.low <= b.low, a.high <= b.high}; }
  SAPDRAW_INLINE friend Mask operator>(Lanes a, Lanes b) { return {a.low > b.low, a.high > b.high}; }
  SAPDRAW_INLINE friend Mask operator>=(Lanes a, Lanes b) { return {a.low >= b.low, a.high >= b.high}; }
};

SAPDRAW_INLINE Lanes select(Lanes::Mask condition, Lanes yes, Lanes no) {
  return {condition.low ? yes.low : no.low, condition.high ? yes.high : no.high};
}
SAPDRAW_INLINE double select(bool condition, double yes, double no) { return condition ? yes : no; }

SAPDRAW_INLINE Lanes min(Lanes a, Lanes b) { return select(a < b, a, b); }
SAPDRAW_INLINE Lanes max(Lanes a, Lanes b) { return select(a > b, a, b); }
SAPDRAW_INLINE double min(double a, double b) { return a < b ? a : b; }
SAPDRAW_INLINE double max(double a, double b) { return a > b ? a : b; }
SAPDRAW_INLINE Lanes abs(Lanes a) { return max(a, -a); }

SAPDRAW_INLINE bool all(Lanes::Mask mask) {
  const Lanes::HalfBits both = mask.low & mask.high;
  return (both[0] & both[1] & both[2] & both[3]) != 0;
}
SAPDRAW_INLINE bool all(bool condition) { return condition; }

SAPDRAW_INLINE Lanes::Half sqrt(Lanes::Half a) { return Lanes::Half{std::sqrt(a[0]), std::sqrt(a[1]), std::sqrt(a[2]), std::sqrt(a[3])}; }
SAPDRAW_INLINE Lanes sqrt(Lanes a) { return {sqrt(a.low), sqrt(a.high)}; }

// e^x. Arguments are held to [-708, 709], where the result is a normal number.
SAPDRAW_INLINE Lanes exp(Lanes x) {
  x = min(max(x, -708.0), 709.0);
  // x = n ln 2 + r with |r| <= ln 2 / 2. Adding 1.5 * 2^52 rounds to an integer and leaves it in the low bits.
  const Lanes shifter = 6755399441055744.0;
  const Lanes shifted = x * 1.4426950408889634074 + shifter;
  const Lanes n = shifted - shifter;
  const Lanes r = (x - n * 6.93145751953125e-1) - n * 1.42860682030941723212e-6;  // ln 2 in two parts
  // (e^r - 1 - r)/r^2: its Taylor series to r^13 brought down to r^9 by Chebyshev polynomials on |r| <= 0.34658 (Lanczos' economization),
  // which costs e^r less than 1.3e-17. Paired (Estrin), so that multiplications need not wait for each other; 1 + r is added last, where
  // rounding would show.
  const Lanes r2 = r * r, r4 = r2 * r2, r8 = r4 * r4;
  const Lanes p2 = 0.5000000000000001 + r * 0.1666666666666667, p4 = 0.04166666666662415 + r * 0.00833333333332614;
  const Lanes p6 = 0.001388888891720173 + r * 0.00019841269874805898, p8 = 2.4801521314994826e-05 + r * 2.7557255419156735e-06;
  const Lanes p10 = 2.762007923998995e-07 + r * 2.5105209030710148e-08;
  const Lanes above = (p2 + r2 * p4) + r4 * (p6 + r2 * p8) + r8 * p10;
  const Lanes p = 1.0 + (r + r2 * above);
  const auto times_power_of_two = [](Lanes::Half mantissa, Lanes::Half exponent) {
    return mantissa * __builtin_bit_cast(Lanes::Half, (__builtin_bit_cast(Lanes::HalfBits, exponent) + 1023) << 52);
  };
  return {times_power_of_two(p.low, shifted.low), times_power_of_two(p.high, shifted.high)};
}

namespace detail {

// x = 2^n m with m in [sqrt(1/2), sqrt(2)), n as a double.
SAPDRAW_INLINE void split(Lanes::Half x, Lanes::Half& n, Lanes::Half& m) {
  const Lanes::HalfBits bits = __builtin_bit_cast(Lanes::HalfBits, x);
  // Arithmetic shifts of 64 bits are not in AVX2: the exponent is shifted down as a positive number and set right as a double.
  const Lanes::HalfBits biased = (bits - 0x3fe6a09e667f3bcdLL + (1023LL << 52)) >> 52;
  m = __builtin_bit_cast(Lanes::Half, bits - ((biased - 1023) << 52));
  const Lanes::HalfBits two_to_52 = {0x4330000000000000LL, 0x4330000000000000LL, 0x4330000000000000LL, 0x4330000000000000LL};
  n = __builtin_bit_cast(Lanes::Half, biased | two_to_52) - (4503599627370496.0 + 1023.0);
}

}  // namespace detail

// Natural logarithm of positive normal numbers; smaller arguments count as the smallest normal number.
SAPDRAW_INLINE Lanes log(Lanes x) {
  x = max(x, 2.2250738585072014e-308);
  Lanes n, m;
  detail::split(x.low, n.low, m.low);
  detail::split(x.high, n.high, m.high);
  // ln m = 2 artanh(s), s = (m - 1)/(m + 1), |s| <= 0.1716: the series to s^21 leaves less than 1e-18.
  const Lanes s = (m - 1.0) / (m + 1.0);
  const Lanes q = s * s;
  Lanes p = 1.0 / 21.0;
  p = p * q + 1.0 / 19.0;
  p = p * q + 1.0 / 17.0;
  p = p * q + 1.0 / 15.0;
  p = p * q + 1.0 / 13.0;
  p = p * q + 1.0 / 11.0;
  p = p * q + 1.0 / 9.0;
  p = p * q + 1.0 / 7.0;
  p = p * q + 1.0 / 5.0;
  p = p * q + 1.0 / 3.0;
  const Lanes tail = s * q * p;
  return n * 6.93145751953125e-1 + (2.0 * s + (2.0 * tail + n * 1.42860682030941723212e-6));
}

// f of every lane, for functions that have no lane form.
template <class F>
SAPDRAW_INLINE Lanes map(Lanes x, F f) {
  for (int lane = 0; lane < Lanes::count; ++lane) x.set(lane, f(x[lane]));
  return x;
}
template <class F>
SAPDRAW_INLINE double map(double x, F f) {
  return f(x);
}

}  // namespace units
