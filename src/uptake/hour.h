// What one hour of weather and soil means to one tree: the coefficients of its flows, constant within the hour.
// docs/model/uptake.md eqs. (4)-(11), (13).
#pragma once
#include "air/saturation.h"
#include "air/shortwave.h"
#include "soil/retention.h"
#include "tree/hydraulics.h"
#include "tree/stomata.h"
#include "tree/viscosity.h"
#include "tree/wet_crown.h"
#include "uptake/draw.h"
#include "uptake/plant.h"

namespace uptake {

// Means over one hour (rain and reference evapotranspiration: its sums; soil: at its end).
struct HourWeather {
  double temp_c = 0.0;
  double dew_point_c = 0.0;
  double pressure_kpa = 0.0;
  double shortwave_w_m2 = 0.0;
  double clear_sky_w_m2 = 0.0;
  double rain_mm = 0.0;
  double reference_mm = 0.0;  // reference evapotranspiration; below zero it is dew
  double soil_temp_c = 0.0;
  double rew = 0.0;          // relative extractable water of the root zone
  double rew_sd = 0.0;       // how well it is known
  double saturated_h = 0.0;  // hours for which the root zone has had no air
  double leaf_share = 1.0;   // of the full crown's leaves
};

// How far the real hour may lie from the forecast one.
template <class R>
struct Shift {
  R temp_c = R(0.0);
  R dew_point_c = R(0.0);
  R cloud = R(0.0);    // added cloud cover, 0..1 scale
  R rain_mm = R(0.0);  // added rain, below zero where the hour is drier
};

template <class R>
struct Hour {
  R demand_l_h;        // transpiration through stomata, with the crown well supplied
  R cuticle_l_h;       // and past them
  R root_l_h_mpa;      // soil to base
  R backflow_l_h_mpa;  // base to soil, where the base is wetter
  R soil_mpa;          // water potential of the soil
  R xylem_l_h_mpa;     // base to crown, no vessel lost
  R port_fluidity;     // of the water in the ports, 1 at 20 C
  R native_open;       // share of the flare's vessels without air
  R vpd_kpa;
  R wet_share;          // of the leaves
  bool sudden = false;  // the soil is another than in the hour before: the base follows within minutes
};

// Shortwave under more or less cloud than forecast: the forecast's own cloud is read off its share of clear-sky radiation by
// Kasten & Czeplak (air/shortwave.h) and put back with the shift.
template <class R>
[[nodiscard]] R shifted_shortwave(const HourWeather& w, R cloud_shift) {
  using units::max;
  using units::min;
  if (w.clear_sky_w_m2 < 1.0) return R(w.shortwave_w_m2);
  const units::Fraction cloud = air::cloud_at_transmission(units::Fraction{w.shortwave_w_m2 / w.clear_sky_w_m2});
  const R shifted = min(R(1.0), max(R(0.0), cloud.value + cloud_shift));
  return w.shortwave_w_m2 * air::cloud_transmission(shifted) / air::cloud_transmission(cloud).value;
}

// The hour's coefficients; `water_mm`, the water on the leaves, is carried from hour to hour.
template <class R>
[[nodiscard]] Hour<R> hour(const Subject& subject, const Draw<R>& draw, const Plant<R>& plant, const soil::RewCurve& curve,
                           const HourWeather& w, const Shift<R>& shift, R& water_mm) {
  using units::max;
  using units::min;
  const tree::Stomata& s = subject.source.tree.stomata;
  const R temp_c = w.temp_c + shift.temp_c;
  const R vpd_kpa = max(R(0.0), air::saturation_kpa(temp_c) - air::saturation_kpa(min(temp_c, w.dew_point_c + shift.dew_point_c)));
  const R rew = min(R(1.5), max(R(0.0), w.rew + w.rew_sd * draw.soil_z));
  const R lai = max(plant.size.lai * w.leaf_share, R(0.01));

  Hour<R> h;
  h.vpd_kpa = vpd_kpa;
  h.wet_share = tree::wet_hour(subject.source.tree.wet_crown, lai, max(R(0.0), w.rain_mm + shift.rain_mm), w.reference_mm, water_mm);
  const R light = tree::canopy_light(s.light_half_w_m2, draw.light_extinction, shifted_shortwave(w, shift.cloud), lai) /
                  tree::canopy_light(s.light_half_w_m2, draw.light_extinction, R(s.reference_light_w_m2), R(s.reference_lai));
  const R conductance = draw.g_ref_mmol_m2_s * light * tree::vpd_response(subject.source.tree.vpd_form, s, vpd_kpa) * tree::temperature_response(s, temp_c) *
                        tree::root_signal(rew, draw.rew_knee, draw.rew_knee_sharpness) *
                        (tree::cold_roots(s, w.soil_temp_c) * tree::flooding_response(s, w.saturated_h));
  // mmol m-2 s-1 under a mole fraction of D/P, as litres of liquid water per hour: 18.02 g/mol.
  const R per_conductance =
      1e-3 * 0.01802 * 3600.0 / w.pressure_kpa * vpd_kpa * plant.size.leaf_area_m2 * w.leaf_share * (1.0 - h.wet_share);
  h.demand_l_h = conductance * per_conductance;
  h.cuticle_l_h = s.minimum_mmol_m2_s * per_conductance;

  const double cold = tree::fluidity(std::max(w.soil_temp_c, 0.0)) * std::clamp(w.soil_temp_c / s.cold_full_c, 1e-6, 1.0);
  const R soil_ratio = max(curve.conductivity_ratio(rew, draw.rew_half_conductance), R(1e-9));
  h.root_l_h_mpa = plant.plumbing.root_l_h_mpa / (1.0 / cold + 1.0 / soil_ratio);
  h.backflow_l_h_mpa = draw.backflow * h.root_l_h_mpa;
  h.soil_mpa = curve.psi_mpa(rew);
  // The flare's vessels fill with air at the tension they have had to live with: the soil's, and what flow to the roots has cost beyond it,
  // which goes with the roots' signal and against the soil's conductance (Gardner 1960). In sand it comes long before the soil's own.
  const R lived_with =
      h.soil_mpa - subject.source.ports.native_soil_drop_mpa * tree::root_signal(rew, draw.rew_knee, draw.rew_knee_sharpness) / soil_ratio;
  h.native_open = tree::vulnerability(lived_with, draw.native_p50_mpa, tree::halves_of(subject.source.ports.native_shape));
  h.xylem_l_h_mpa = plant.plumbing.xylem_l_h_mpa * tree::fluidity(temp_c);
  h.port_fluidity = tree::fluidity(0.5 * (temp_c + w.soil_temp_c));
  return h;
}

}  // namespace uptake
