// Hourly reference evapotranspiration as arrays: net radiation, soil heat and the Penman-Monteith sum in one pass.
// Computes what air/net_radiation.h and air/reference_et.h compute hour by hour; the largest relative difference from them, 1e-12, is
// tested in tests/air/array_kernels_test.cpp.
#pragma once
#include <span>

namespace air {

// Inputs of one length, none of them missing; a number that stands in for a missing one does not touch other hours.
struct EtInputs {
  std::span<const double> temp_c;  // -60..60
  std::span<const double> rh_pct;  // 0 or more; the deficit of supersaturated air is 0
  std::span<const double> wind_2m_m_s;
  std::span<const double> pressure_kpa;
  std::span<const double> shortwave_w_m2;
  std::span<const double> sky_ratio;  // Rs/Rso as the longwave term is to see it (air/sky_hours.h)
};

// Outputs of the same length; an empty one is not computed. None may overlap an input.
struct EtOutputs {
  std::span<double> net_radiation_mj_m2_h;  // FAO-56 eq. 38-40
  std::span<double> fao56_mm_h;             // FAO-56 eq. 53, soil heat by eq. 45 and 46
  std::span<double> asce_short_mm_h;        // ASCE-EWRI (2005) eq. 1 and table 1; night, for both, is where net radiation is negative
  std::span<double> asce_tall_mm_h;
};

void et_hours(const EtInputs& in, const EtOutputs& out);

}  // namespace air
