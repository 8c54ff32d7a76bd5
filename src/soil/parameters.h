// Every number the root-zone balance needs beside the texture. Values come from models/soils.json ("root_zone"); there are no defaults
// here.
#pragma once
#include <vector>

namespace soil {

struct Parameters {
  // Layers and roots.
  std::vector<double> layer_bottoms_cm;  // rising; the first, 5..15 cm, is also the layer that evaporates; last <= 300
  double root_beta = 0.0;                // share of roots above depth d cm is 1 - beta^d (Jackson et al. 1996), 0.85..0.995
  double depletion_share_p = 0.0;        // share of available water taken before uptake falls (FAO-56 table 22), 0.1..0.8
  double compensation = 0.0;             // critical root stress index of Jarvis (1989): 1 = no compensation by wetter layers, 0.1..1

  // Cover: the two states between which the leaf share (0 bare, 1 full leaf) moves.
  double kcb_leafless = 0.0;          // basal crop coefficient of the ground with a leafless tree, 0..1.2
  double kcb_full_leaf = 0.0;         // and in full leaf, 0..1.4
  double kc_max = 0.0;                // upper limit of all evaporation over ET0 (FAO-56 eq. 72), 1.0..1.4
  double exposed_leafless = 0.0;      // share of the ground that is bare and sunlit with a leafless tree (FAO-56 "few"), 0..1
  double exposed_full_leaf = 0.0;     // and in full leaf, 0..1
  double crown_share = 0.0;           // share of the root zone's ground under the crown, 0..1
  double leaf_area_index = 0.0;       // of the crown in full leaf, m2/m2, 0..10
  double store_mm_per_lai = 0.0;      // rain held per leaf area index, 0.05..0.4
  double bark_store_mm = 0.0;         // rain held by a leafless crown, 0..1
  double wet_crown_et0_factor = 0.0;  // evaporation of a wet crown over ET0, 0.5..3

  // Water.
  double least_infiltration_mm_per_h = 0.0;  // what cracks and worm holes pass where the matrix would pass less, 0..50
  double ponding_mm = 0.0;                   // water the surface holds before it runs off, 0..50
  int substeps_per_hour = 0;                 // of hours with water moving, 1..60
  double breathing_air = 0.0;                // air-filled porosity below which roots are short of air, m3/m3, 0..0.3
  double breathing_share = 0.0;              // the same as a share of the pores that drain at all; the smaller of the two rules, 0..1
  double breathing_depth_cm = 0.0;           // over which that is judged, > 0

  // Temperature.
  double temperature_memory_h = 0.0;  // time constant of the root zone's lag behind the air, hours, 1..2000

  // How well the state is known, as standard deviations of REW.
  double start_rew = 0.0;              // the guess with which a run starts that knows nothing, 0..1
  double start_rew_sd = 0.0;           // of that guess, 0..1
  double settled_rew_sd = 0.0;         // of a run whose start is long forgotten, 0..1
  double memory_h = 0.0;               // hours in which the start, or an observation, is forgotten to 1/e, 24..10000
  double correlation_cm = 0.0;         // depth over which errors of layers go together, 1..1000
  double unknown_rain_mm_per_h = 0.0;  // expected rain of an hour whose rain nobody knows, 0..2
  double unknown_rain_sd_mm = 0.0;     // its standard deviation over one hour, 0..20

  // Observations.
  double provider_sd_m3_m3 = 0.0;  // standard deviation of a weather model's soil moisture as a statement about this ground, 0.005..0.5
  double feel_sd_share = 0.0;      // standard deviation of a hand's judgement of available water, beside the width of its class, 0..1
  double feel_depth_cm = 0.0;      // from the surface down, that a hand judges, 5..100
  double probe_reach_cm = 0.0;     // how far above and below itself a probe feels, 0.5..30
  double probe_sd_m3_m3 = 0.0;     // standard deviation of one reading of a hand's probe as a statement about this ground, 0.005..0.5
  double stated_rew_sd = 0.0;      // standard deviation of a REW that somebody states, 0.01..0.5
};

}  // namespace soil
