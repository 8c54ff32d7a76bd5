// Soils and root-zone numbers for tests that do not read models/: the same values as models/soils.json (a test in tests/params compares
// them). Textures: Carsel & Parrish (1988), Water Resources Research 24:755-769, class means; evaporation: FAO-56 table 19, middle of each
// range.
#pragma once
#include <stdexcept>
#include <string_view>
#include <vector>

#include "soil/parameters.h"
#include "soil/root_zone.h"
#include "soil/texture.h"

namespace soil_fixture {

inline std::vector<soil::Texture> textures() {
  return {
      {"sand", "sand", 0.045, 0.43, 0.145, 2.68, 712.8, 3.5, 1500, 4.5, 9},
      {"loamy_sand", "loamy sand", 0.057, 0.41, 0.124, 2.28, 350.16, 4.7, 1500, 6, 11.5},
      {"sandy_loam", "sandy loam", 0.065, 0.41, 0.075, 1.89, 106.08, 8.1, 1500, 8, 17.5},
      {"loam", "loam", 0.078, 0.43, 0.036, 1.56, 24.96, 14, 1500, 9, 19},
      {"silt", "silt", 0.034, 0.46, 0.016, 1.37, 6.0, 20.5, 1500, 9.5, 24},
      {"silt_loam", "silt loam", 0.067, 0.45, 0.02, 1.41, 10.8, 21, 1500, 9.5, 21.5},
      {"sandy_clay_loam", "sandy clay loam", 0.1, 0.39, 0.059, 1.48, 31.44, 9.9, 1500, 8.5, 18},
      {"clay_loam", "clay loam", 0.095, 0.41, 0.019, 1.31, 6.24, 33, 1500, 9.5, 22},
      {"silty_clay_loam", "silty clay loam", 0.089, 0.43, 0.01, 1.23, 1.68, 33, 1500, 9.5, 24.5},
      {"sandy_clay", "sandy clay", 0.1, 0.38, 0.027, 1.23, 2.88, 33, 1500, 9.5, 21},
      {"silty_clay", "silty clay", 0.07, 0.36, 0.005, 1.09, 0.48, 33, 1500, 10, 25},
      {"clay", "clay", 0.068, 0.38, 0.008, 1.09, 4.8, 33, 1500, 10, 25.5},
  };
}

inline soil::Texture texture(std::string_view key) {
  for (const soil::Texture& t : textures())
    if (t.key == key) return t;
  throw std::out_of_range("no such texture");
}

inline soil::Parameters parameters() {
  soil::Parameters p;
  p.layer_bottoms_cm = {10, 30, 60, 100, 150};
  p.root_beta = 0.966;
  p.depletion_share_p = 0.5;
  p.compensation = 0.5;
  p.kcb_leafless = 0.45;
  p.kcb_full_leaf = 1.15;
  p.kc_max = 1.2;
  p.exposed_leafless = 0.3;
  p.exposed_full_leaf = 0.1;
  p.crown_share = 0.7;
  p.leaf_area_index = 4.4;
  p.store_mm_per_lai = 0.15;
  p.bark_store_mm = 0.1;
  p.wet_crown_et0_factor = 1.2;
  p.least_infiltration_mm_per_h = 5;
  p.ponding_mm = 5;
  p.substeps_per_hour = 4;
  p.breathing_air = 0.10;
  p.breathing_share = 0.5;
  p.breathing_depth_cm = 30;
  p.temperature_memory_h = 120;
  p.start_rew = 0.5;
  p.start_rew_sd = 0.29;
  p.settled_rew_sd = 0.15;
  p.memory_h = 720;
  p.correlation_cm = 50;
  p.unknown_rain_mm_per_h = 0.11;
  p.unknown_rain_sd_mm = 1.4;
  p.provider_sd_m3_m3 = 0.06;
  p.feel_sd_share = 0.05;
  p.feel_depth_cm = 30;
  p.probe_reach_cm = 5;
  p.probe_sd_m3_m3 = 0.03;
  p.stated_rew_sd = 0.05;
  return p;
}

inline soil::RootZone root_zone(std::string_view key) { return soil::RootZone::make(parameters(), texture(key)).value(); }

}  // namespace soil_fixture
