// Quantities with their unit in the type, for every place where a caller could hand over the wrong number.
// Inside kernels over arrays plain doubles with a unit suffix (`vpd_kpa`) are used instead.
#pragma once
#include <compare>

namespace units {

// A number of one unit. Quantities of the same unit add, subtract and compare; mixing units does not compile.
template <class Unit>
struct Quantity {
  double value = 0.0;

  constexpr Quantity() = default;
  explicit constexpr Quantity(double number) : value(number) {}

  friend constexpr auto operator<=>(Quantity, Quantity) = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity{a.value + b.value}; }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity{a.value - b.value}; }
  friend constexpr Quantity operator-(Quantity a) { return Quantity{-a.value}; }
  friend constexpr Quantity operator*(double factor, Quantity a) { return Quantity{factor * a.value}; }
  friend constexpr Quantity operator*(Quantity a, double factor) { return Quantity{a.value * factor}; }
  friend constexpr Quantity operator/(Quantity a, double divisor) { return Quantity{a.value / divisor}; }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value / b.value; }
};

using Celsius = Quantity<struct CelsiusUnit>;
using Kilopascals = Quantity<struct KilopascalsUnit>;
using Megapascals = Quantity<struct MegapascalsUnit>;
using KilopascalsPerKelvin = Quantity<struct KilopascalsPerKelvinUnit>;
using Fraction = Quantity<struct FractionUnit>;  // 0..1
using Millimetres = Quantity<struct MillimetresUnit>;
using Centimetres = Quantity<struct CentimetresUnit>;
using Metres = Quantity<struct MetresUnit>;
using SquareMetres = Quantity<struct SquareMetresUnit>;
using MetresPerSecond = Quantity<struct MetresPerSecondUnit>;
using WattsPerSquareMetre = Quantity<struct WattsPerSquareMetreUnit>;
// Energy over a stated period (an hour or a day): the function that takes or returns it says which.
using MegajoulesPerSquareMetre = Quantity<struct MegajoulesPerSquareMetreUnit>;
using Litres = Quantity<struct LitresUnit>;
using LitresPerHour = Quantity<struct LitresPerHourUnit>;
using Hours = Quantity<struct HoursUnit>;
using Degrees = Quantity<struct DegreesUnit>;
using Radians = Quantity<struct RadiansUnit>;

}  // namespace units
