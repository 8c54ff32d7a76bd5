// The numbers behind a stand's sap flow, filled from models/sapflow.json. docs/model/sapflow.md says what each does.
#pragma once
#include "units/uncertain.h"

namespace sapflow {

// What a stand's own record decides: as values (Demand) or as what is known beforehand (Priors).
template <class T>
struct DemandOf {
  T conductance_cm_s{};  // crown conductance per ground area at 1 kPa in full light, for a flow of 1
  T aerodynamic_cm_s{};  // of the air between big leaf and measured air
  T vpd_slope{};         // m of Oren's form, and its floor
  T vpd_floor{};
  T medlyn_g1_sqrt_kpa{};  // of Medlyn's form
  T jarvis_half_kpa{};     // of Jarvis's form, and its exponent
  T jarvis_steepness{};
  T light_half_w_m2{};  // shortwave at which a leaf is half open
  T temp_low_c{};       // below which cold closes leaves
  T rew_knee{};         // relative extractable water below which roots signal
  T dark_share{};       // of the conductance, left in the dark
  T lag_h{};            // of flow at breast height behind the leaves: water stored between them
};
using Demand = DemandOf<double>;
using Priors = DemandOf<units::Uncertain>;

// How far flow departs from what weather explains, beforehand.
struct Noise {
  double hour_sd = 0.0;            // of an hour's flow about the fit, in units of the flow
  double hours_alike = 0.0;        // hours in a row that err together: they count as one
  double day_ln_sd = 0.0;          // of one day's level about the drifting level
  double drift_ln_sd = 0.0;        // of the drifting level within a season
  double drift_days = 0.0;         // over which it forgets itself to 1/e
  double season_gap_days = 0.0;    // without a measurement, after which another season begins
  double tree_season_ln_sd = 0.0;  // of one tree's level from season to season
  double trees_together = 0.0;     // trees whose mean the flow is: their levels partly cancel
  double season_fall = 0.0;        // by which ln(level) falls, at the median, from the last season measured to a later one
};

// What the stand is taken to be where nobody says.
struct Stand {
  double leaf_area_index = 0.0;
  double flow_heat_w_m2 = 0.0;         // latent heat at which the flow is called 1; goes into the conductances alone
  double least_available_m3_m3 = 0.0;  // water that roots can reach at all, where the probe has seen no drought
};

struct Parameters {
  Priors priors;
  Noise noise;
  Stand stand;
};

}  // namespace sapflow
