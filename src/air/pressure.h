// Air pressure, and the psychrometric constant that follows from it.
// Source: FAO-56 (Allen et al. 1998), chapter 3.
#pragma once
#include "units/quantity.h"

namespace air {

// Mean pressure at a height above sea level in a standard atmosphere at 20 C (eq. 7). Valid -430..9000 m.
[[nodiscard]] units::Kilopascals pressure_at(units::Metres elevation);

// Psychrometric constant, 0.665e-3 P as eq. 8 prints it (rounded there from cp P / (epsilon lambda)).
[[nodiscard]] units::KilopascalsPerKelvin psychrometric_constant(units::Kilopascals pressure);

}  // namespace air
