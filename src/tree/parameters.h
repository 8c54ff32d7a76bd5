// The numbers of nature that describe a tree, filled from models/tree.json and models/species.json by src/params.
// Every figure's source and confidence stand there; symbols and equations in docs/model/tree.md.
#pragma once
#include <string>
#include <vector>

#include "units/uncertain.h"

namespace tree {

// ln(y) = intercept + slope ln(dbh_cm), with the spread of ln(y) between trees of one diameter.
struct LogLogFit {
  double intercept = 0.0;
  double slope = 0.0;
  double ln_sd = 0.0;
};

// From trunk diameter to crown, pooled over measured open-grown trees of the species.
struct Allometry {
  LogLogFit leaf_area_m2;
  LogLogFit crown_diameter_m;
  LogLogFit height_m;
  double fitted_to_dbh_cm = 0.0;  // largest diameter measured; beyond it the fit is carried on, and said to be
};

// When leaves come and go (thermal time above a base from midwinter; colouring by day length).
struct LeafCalendar {
  double thermal_base_c = 0.0;
  double leaf_out_degree_days = 0.0;    // 0: evergreen, always in full leaf
  double season_amplitude_c = 0.0;      // of the yearly wave that carries a short temperature record back to midwinter
  double expansion_days = 0.0;          // leaf-out to full leaf
  double colouring_day_length_h = 0.0;  // after midsummer, shorter days colour the crown
  double fall_days = 0.0;               // colouring to bare
};

// The shape of the stomata's answer to dry air; docs/model/tree.md (5) and the table under it say how each did on open sap-flow data.
enum class VpdForm {
  oren,    // 1 - m ln D, capped and floored (Oren et al. 1999)
  medlyn,  // g1/sqrt(D) beside what takes up carbon (Medlyn et al. 2011)
  jarvis,  // 1/(1 + (D/D_half)^n): Lohammar's hyperbola, as Leuning has it, at n = 1
};

struct Stomata {
  units::Uncertain g_ref_mmol_m2_s;   // mean over the leaf area at LAI 4.4, 1 kPa, full light
  units::Uncertain light_extinction;  // k of the canopy light integral
  units::Uncertain psi_half_mpa;      // magnitude of crown potential at half closure
  double psi_shape = 0.0;             // exponent of that closure
  double vpd_slope = 0.0;             // m of Oren et al. 1999
  double vpd_cap_kpa = 0.0;           // below this the response is held
  double vpd_floor = 0.0;             // share of g_ref that the response never falls below
  double medlyn_g1_sqrt_kpa = 0.0;    // of VpdForm::medlyn
  double jarvis_half_kpa = 0.0;       // of VpdForm::jarvis: half of what is open in damp air
  double jarvis_steepness = 0.0;      // its exponent n: above 1 loss of water peaks and falls
  double light_half_w_m2 = 0.0;       // shortwave at which a leaf is half open
  double reference_light_w_m2 = 0.0;  // light and leaf area index at which g_ref is stated
  double reference_lai = 0.0;
  double temp_min_c = 0.0, temp_low_c = 0.0, temp_high_c = 0.0, temp_max_c = 0.0;
  double minimum_mmol_m2_s = 0.0;  // cuticle
  units::Uncertain rew_knee;       // relative extractable water below which roots signal
  units::Uncertain rew_knee_sharpness;
  double cold_full_c = 0.0;    // soil temperature above which roots are not held back by cold, apart from viscosity
  double flooded_share = 0.0;  // of conductance left after flooded_after_h of saturated soil
  double flooded_after_h = 0.0;
};

struct Hydraulics {
  units::Uncertain whole_plant_mm_d_mpa;  // conductance per crown projection
  units::Uncertain root_share;            // rho: share of the whole resistance that lies between soil and stem base
  units::Uncertain backflow;              // root conductance outwards over inwards
  units::Uncertain rew_half_conductance;  // REW at which soil and root resist alike
  units::Uncertain p50_mpa;               // magnitude
  double vulnerability_shape = 0.0;
  units::Uncertain elastic_l_m3_mpa;  // water given up per sapwood volume and potential
  double base_store_share = 0.0;      // of that storage, at the stem base
  double huber_m2_m2 = 0.0;           // leaf area over sapwood area
  double crown_height_share = 0.0;    // of tree height that the water is lifted
};

struct WetCrown {
  double store_mm_per_lai = 0.0;  // water that leaves can hold, per ground area and leaf area index
  double drying_factor = 0.0;     // evaporation of a fully wet crown over the reference evaporation of the hour
};

struct Parameters {
  VpdForm vpd_form = VpdForm::oren;
  Stomata stomata;
  Hydraulics hydraulics;
  WetCrown wet_crown;
};

// One species or genus that the program may answer for.
struct Species {
  std::string key;                   // "ulmus_americana"
  std::string latin;                 // "Ulmus americana"
  std::vector<std::string> english;  // the first is the one printed
  std::string genus_note;            // what a person should know of this species' figures; may be empty
  Allometry allometry;
  LeafCalendar leaves;
  double port_factor = 0.0;  // conductance of a fresh port over the elm's, from a published table
  units::Uncertain p50_mpa;  // overrides Hydraulics
  double huber_m2_m2 = 0.0;  // overrides Hydraulics
};

}  // namespace tree
