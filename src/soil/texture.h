// A soil as the water balance sees it: one texture with its hydraulic parameters. Filled from models/soils.json or by soil/pedotransfer.h.
#pragma once
#include <string>

namespace soil {

// Class means after Carsel & Parrish (1988), Water Resources Research 24:755-769; evaporation marks after FAO-56 table 19.
struct Texture {
  std::string key;   // as in models/ and CSV: "silt_loam"
  std::string name;  // as a person says it: "silt loam"

  double theta_r = 0.0;        // residual water content, m3/m3, 0 <= theta_r < theta_s
  double theta_s = 0.0;        // saturated water content, m3/m3, 0.2..0.9
  double alpha_per_cm = 0.0;   // van Genuchten alpha, 1/cm, 0.001..0.5
  double n = 0.0;              // van Genuchten n, 1.01..10; m = 1 - 1/n
  double ks_cm_per_day = 0.0;  // saturated hydraulic conductivity, cm/day, 0.01..5000
  double field_capacity_kpa =
      0.0;                   // suction at which free drainage has become negligible, kPa, 1..50 (docs/model/soil.md says how it is chosen)
  double wilting_kpa = 0.0;  // suction below which roots take nothing, kPa, 500..4000; 1500 by convention

  double readily_evaporable_mm = 0.0;  // depletion of the surface layer at which evaporation starts to fall (FAO-56 "REW"), mm, 0..15
  double total_evaporable_mm = 0.0;    // depletion at which it stops (FAO-56 "TEW"), mm, readily_evaporable_mm < .. <= 40
};

}  // namespace soil
