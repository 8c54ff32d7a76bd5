// Saturation pressure and vapour pressure deficit as arrays.
// Computes what air/humidity.h computes hour by hour, to 1e-14 relative to saturation (tests/air/array_kernels_test.cpp).
#pragma once
#include <span>

namespace air {

// Arrays of one length; temperature -60..60 C. FAO-56 eq. 11 and 54; the deficit is never negative. Outputs may not overlap inputs.
void vapour_hours(std::span<const double> temp_c, std::span<const double> rh_pct, std::span<double> saturation_kpa,
                  std::span<double> vpd_kpa);

}  // namespace air
