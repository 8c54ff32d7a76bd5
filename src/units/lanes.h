// Eight doubles that move together, so that one formula serves one draw (R = double) and many (R = Lanes).
// Formulas are templates that call exp, log, pow, sqrt, min, max and select unqualified; the overloads here carry them to lanes.
// Own polynomials, because libm has no vector form that gives the same bits on every machine; their error is bounded in
// tests/units/lanes_test.cpp (exp: 2e-16 relative plus argument rounding, log: 3e-16 relative to max(1, |log|)).
#pragma once
#include <cmath>
#include <cstdint>

#define SAPDRAW_INLINE [[gnu::always_inline]] inline

namespace units {

// Aligned by hand: the compiler would align the vector only as far as the narrowest target it builds for, and the wide clones of
// uptake/ensemble.cpp load it whole.
struct alignas(64) Lanes {
  static constexpr int count = 8;
  typedef double Vector [[gnu::vector_size(64)]];
  typedef std::int64_t Mask [[gnu::vector_size(64)]];

  Vector v;

  Lanes() = default;
  SAPDRAW_INLINE Lanes(double all) : v{all, all, all, all, all, all, all, all} {}  // implicit: constants of a formula mix with lanes
  SAPDRAW_INLINE explicit Lanes(Vector vector) : v(vector) {}

  double operator[](int lane) const { return v[lane]; }
  void set(int lane, double value) { v[lane] = value; }

  SAPDRAW_INLINE friend Lanes operator+(Lanes a, Lanes b) { return Lanes{a.v + b.v}; }
  SAPDRAW_INLINE friend Lanes operator-(Lanes a, Lanes b) { return Lanes{a.v - b.v}; }
  SAPDRAW_INLINE friend Lanes operator*(Lanes a, Lanes b) { return Lanes{a.v * b.v}; }
  SAPDRAW_INLINE friend Lanes operator/(Lanes a, Lanes b) { return Lanes{a.v / b.v}; }
  SAPDRAW_INLINE friend Lanes operator-(Lanes a) { return Lanes{-a.v}; }
  SAPDRAW_INLINE Lanes& operator+=(Lanes b) {
    v += b.v;
    return *this;
  }
  SAPDRAW_INLINE friend Mask operator<(Lanes a, Lanes b) { return a.v < b.v; }
  SAPDRAW_INLINE friend Mask operator<=(Lanes a, Lanes b) { return a.v <= b.v; }
  SAPDRAW_INLINE friend Mask operator>(Lanes a, Lanes b) { return a.v > b.v; }
  SAPDRAW_INLINE friend Mask operator>=(Lanes a, Lanes b) { return a.v >= b.v; }
};

SAPDRAW_INLINE Lanes select(Lanes::Mask condition, Lanes yes, Lanes no) { return Lanes{condition ? yes.v : no.v}; }
SAPDRAW_INLINE double select(bool condition, double yes, double no) { return condition ? yes : no; }

SAPDRAW_INLINE Lanes min(Lanes a, Lanes b) { return select(a < b, a, b); }
SAPDRAW_INLINE Lanes max(Lanes a, Lanes b) { return select(a > b, a, b); }
SAPDRAW_INLINE double min(double a, double b) { return a < b ? a : b; }
SAPDRAW_INLINE double max(double a, double b) { return a > b ? a : b; }
SAPDRAW_INLINE Lanes abs(Lanes a) { return max(a, -a); }

SAPDRAW_INLINE bool all(Lanes::Mask mask) {
  std::int64_t together = -1;
  for (int lane = 0; lane < Lanes::count; ++lane) together &= mask[lane];
  return together != 0;
}
SAPDRAW_INLINE bool all(bool condition) { return condition; }

SAPDRAW_INLINE Lanes sqrt(Lanes a) {
  Lanes root;
  for (int lane = 0; lane < Lanes::count; ++lane) root.v[lane] = std::sqrt(a.v[lane]);
  return root;
}

// e^x. Arguments are held to [-708, 709], where the result is a normal number.
SAPDRAW_INLINE Lanes exp(Lanes x) {
  x = min(max(x, -708.0), 709.0);
  // x = n ln 2 + r with |r| <= ln 2 / 2. Adding 1.5 * 2^52 rounds to an integer and leaves it in the low bits.
  const Lanes shifter = 6755399441055744.0;
  const Lanes shifted = x * 1.4426950408889634074 + shifter;
  const Lanes n = shifted - shifter;
  const Lanes r = (x - n * 6.93145751953125e-1) - n * 1.42860682030941723212e-6;  // ln 2 in two parts
  // Taylor series to r^13 / 13!: the remainder is below 1e-17 on |r| <= 0.3466.
  Lanes p = 1.0 / 6227020800.0;
  p = p * r + 1.0 / 479001600.0;
  p = p * r + 1.0 / 39916800.0;
  p = p * r + 1.0 / 3628800.0;
  p = p * r + 1.0 / 362880.0;
  p = p * r + 1.0 / 40320.0;
  p = p * r + 1.0 / 5040.0;
  p = p * r + 1.0 / 720.0;
  p = p * r + 1.0 / 120.0;
  p = p * r + 1.0 / 24.0;
  p = p * r + 1.0 / 6.0;
  p = p * r + 0.5;
  p = p * r + 1.0;
  p = p * r + 1.0;
  const Lanes::Mask exponent = (__builtin_bit_cast(Lanes::Mask, shifted.v) + 1023) << 52;
  return Lanes{p.v * __builtin_bit_cast(Lanes::Vector, exponent)};
}

// Natural logarithm of positive normal numbers; smaller arguments count as the smallest normal number.
SAPDRAW_INLINE Lanes log(Lanes x) {
  x = max(x, 2.2250738585072014e-308);
  const Lanes::Mask bits = __builtin_bit_cast(Lanes::Mask, x.v);
  // x = 2^n m with m in [sqrt(1/2), sqrt(2)).
  const Lanes::Mask above = (bits - 0x3fe6a09e667f3bcdLL) >> 52;
  const Lanes::Mask mantissa = bits - (above << 52);
  const Lanes m{__builtin_bit_cast(Lanes::Vector, mantissa)};
  Lanes n;
  for (int lane = 0; lane < Lanes::count; ++lane) n.v[lane] = static_cast<double>(above[lane]);
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
  for (int lane = 0; lane < Lanes::count; ++lane) x.v[lane] = f(x.v[lane]);
  return x;
}
template <class F>
SAPDRAW_INLINE double map(double x, F f) {
  return f(x);
}

// x^y for x > 0.
SAPDRAW_INLINE Lanes pow(Lanes x, Lanes y) { return exp(y * log(x)); }

}  // namespace units
