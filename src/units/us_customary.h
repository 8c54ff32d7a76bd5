// US customary units, met only where people read or write numbers.
#pragma once

namespace units::us {

inline constexpr double litres_per_gallon = 3.785411784;          // US liquid gallon, exact
inline constexpr double centimetres_per_inch = 2.54;              // exact
inline constexpr double kilopascals_per_psi = 6.894757293168361;  // exact from lbf, in
inline constexpr double metres_per_mile = 1609.344;               // exact
inline constexpr double metres_per_foot = 0.3048;                 // exact

[[nodiscard]] constexpr double gallons(double litres) { return litres / litres_per_gallon; }
[[nodiscard]] constexpr double inches(double centimetres) { return centimetres / centimetres_per_inch; }
[[nodiscard]] constexpr double feet(double metres) { return metres / metres_per_foot; }
[[nodiscard]] constexpr double psi(double kilopascals) { return kilopascals / kilopascals_per_psi; }
[[nodiscard]] constexpr double fahrenheit(double celsius) { return celsius * 1.8 + 32.0; }
[[nodiscard]] constexpr double miles_per_hour(double metres_per_second) { return metres_per_second * 3600.0 / metres_per_mile; }

}  // namespace units::us
