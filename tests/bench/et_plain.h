// The same evapotranspiration and deficit as a plain loop over libm: what the kernels of src/air are measured against.
#pragma once
#include <span>

#include "bench/record.h"

namespace bench {

// FAO-56 eq. 53 and ASCE-EWRI (2005) short, by FAO-56 eq. 8, 11, 13, 21-33, 37-40, 45, 46 and 54; what a day fixes is computed once a
// day. `sky_ratio` serves until the first hour of high sun.
void et_plain(const Record& record, double sky_ratio, std::span<double> fao56_mm_h, std::span<double> asce_short_mm_h);

void vapour_plain(std::span<const double> temp_c, std::span<const double> rh_pct, std::span<double> saturation_kpa,
                  std::span<double> vpd_kpa);

}  // namespace bench
