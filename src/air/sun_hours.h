// The clear sky of consecutive hours at one place, as arrays.
// Computes what air/sun.h and air/shortwave.h compute hour by hour; the largest difference from them, 1e-9 W/m2 at any latitude, is
// tested in tests/air/array_kernels_test.cpp.
#pragma once
#include <span>

#include "units/site.h"
#include "units/time.h"

namespace air {

// Two arrays of one length; the first hour ends at `first_label`. Of the site all three numbers are read.
//
// `clear_sky_w_m2`: mean of the hour by FAO-56 eq. 37 on eq. 28, never negative.
// `judging_sky_w_m2`: the same where the sun stands high enough at mid-hour to tell cloudiness by Rs/Rso, else 0. High enough is
// 0.3 rad (ASCE-EWRI 2005, hourly calculation); where the noon sun itself stays below 0.4 rad, three quarters of its elevation (ours).
void sun_hours(const units::Site& site, units::UtcHour first_label, std::span<double> clear_sky_w_m2, std::span<double> judging_sky_w_m2);

}  // namespace air
