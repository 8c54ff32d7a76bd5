// The equations of docs/model/uptake.md written down a second time, plainly and apart from src/tree and src/uptake, as the slopes of a
// tree's state: for comparison, not for speed. The numbering is that page's. Somebody else moves them through time (cvode.h).
#pragma once
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <vector>

#include "uptake/bench.h"

namespace independent {

struct State {
  double base_mpa, crown_mpa, lumens_l, volume_l;
};

// Ports are open from `at_h` hours after the day's first hour on, with this share of their vessels.
struct Drilling {
  double at_h, open_share;
};

class Tree {
 public:
  Tree(const bench::Case& c, const uptake::Draw<double>& d) : c_(c), d_(d), s_(c.subject.source.tree.stomata) {
    const auto& h = c.subject.source.tree.hydraulics;
    const double dbh = c.subject.measured.dbh.value;
    const auto fit = [dbh](const tree::LogLogFit& f) { return std::exp(f.intercept) * std::pow(dbh, f.slope); };
    leaf_area_ = fit(c.subject.allometry.leaf_area_m2) * std::exp(d.leaf_area_z * c.subject.allometry.leaf_area_m2.ln_sd);  // (1)
    const double crown_m = fit(c.subject.allometry.crown_diameter_m);
    crown_area_ = std::numbers::pi * crown_m * crown_m / 4.0;
    const double height = fit(c.subject.allometry.height_m);
    ports_ = c.subject.port_count.value_or(std::numbers::pi * dbh * d.flare_factor / c.subject.port_spacing.value);  // (2)
    const double sapwood_m3 = leaf_area_ / h.huber_m2_m2 * height;
    const double whole = d.whole_plant_mm_d_mpa * crown_area_ / 24.0;  // (3)
    root_0_ = whole / d.root_share;
    xylem_0_ = whole / (1.0 - d.root_share);
    base_store_ = h.base_store_share * d.elastic_l_m3_mpa * sapwood_m3;
    crown_store_ = (1.0 - h.base_store_share) * d.elastic_l_m3_mpa * sapwood_m3;
    lift_ = 1000.0 * 9.81 * 1e-6 * h.crown_height_share * height;
    p50_shape_ = h.vulnerability_shape;
    lumens_max_ = ports_ * d.lumens_l_per_port * c.subject.port_factor;  // (16)
    pressure_ = c.subject.pressure.value;
    port_0_ = ports_ * d.conductance_l_h_mpa * d.hole_factor * c.subject.port_factor;
    double water_mm = c.water_mm;
    for (const auto& w : c.hours) hours_.push_back(inputs(w, water_mm));
  }

  [[nodiscard]] State at_rest() const { return {hours_[0].soil_mpa, hours_[0].soil_mpa - lift_, 0.0, 0.0}; }

  // Of a tree in state `y`, drilled `at_h` hours after the day's first hour (13).
  [[nodiscard]] Drilling drill(const State& y, double at_h) const {
    return {at_h, std::exp(std::min(y.base_mpa, 0.0) / d_.drilling_mpa) * hours_.at(static_cast<std::size_t>(at_h)).native};
  }

  // Change per hour of a state at `t_h` hours after the day's first hour, inside hour `hour`; without a `drilling` there are no ports.
  [[nodiscard]] State slope(const State& y, double t_h, std::size_t hour, const std::optional<Drilling>& drilling) const {
    const Input& in = hours_[hour];
    const double pull = std::max(0.0, -y.crown_mpa);
    const double leaves = in.stomata_l_h / (1.0 + std::pow(pull / d_.psi_half_mpa, s_.psi_shape)) + in.cuticle_l_h;
    const double root = in.root * (in.soil_mpa - y.base_mpa) * (y.base_mpa <= in.soil_mpa ? 1.0 : d_.backflow);                    // (10)
    const double xylem = in.xylem * std::pow(2.0, -std::pow(pull / d_.p50_mpa, p50_shape_)) * (y.base_mpa - y.crown_mpa - lift_);  // (11)
    double ports = 0.0, lumens = 0.0;
    if (drilling) {
      const double since_h = t_h - drilling->at_h;
      const double w = drilling->open_share * ((1.0 - d_.fast_share) * std::exp(-since_h / d_.slow_hours) +
                                               d_.fast_share * std::exp(-since_h / d_.fast_hours));                // (14)
      ports = port_0_ * in.port * w * std::max(0.0, pressure_ - y.base_mpa);                                       // (15)
      lumens = (lumens_max_ - y.lumens_l) / d_.lumens_hours * (pressure_ / 0.1) * in.port * drilling->open_share;  // (16)
    }
    return {(root + ports - xylem) / base_store_, (xylem - leaves) / crown_store_, lumens, ports + lumens};  // (12), (17)
  }

 private:
  struct Input {
    double soil_mpa, root, xylem, port, native, stomata_l_h, cuticle_l_h;
  };

  // Viscosity in Pa s (Vogel), of 20 C over that of t.
  static double thinner(double temp_c) {
    const auto viscosity = [](double c) { return 2.414e-5 * std::pow(10.0, 247.8 / (c + 273.15 - 140.0)); };
    return viscosity(20.0) / viscosity(temp_c);
  }
  static double es(double temp_c) { return 0.6108 * std::exp(17.27 * temp_c / (temp_c + 237.3)); }
  double crown_light(double w_m2, double lai) const {
    const double k = d_.light_extinction, half = s_.light_half_w_m2;
    return std::log((w_m2 + half) / (w_m2 * std::exp(-k * lai) + half)) / (k * lai);
  }
  // van Genuchten and Mualem for the case's texture.
  double saturation(double rew) const {
    const auto& t = c_.curve.texture();
    return std::clamp((c_.curve.wilting() + rew * c_.curve.available() - t.theta_r) / (t.theta_s - t.theta_r), 0.0, 1.0);
  }
  double soil_mpa(double rew) const {
    const auto& t = c_.curve.texture();
    const double se = saturation(rew);
    if (se >= 1.0) return 0.0;
    if (se <= 0.0) return -100.0;
    const double suction_cm = std::pow(std::pow(se, -1.0 / (1.0 - 1.0 / t.n)) - 1.0, 1.0 / t.n) / t.alpha_per_cm;
    return -std::min(100.0, suction_cm * 98.0665e-6);
  }
  double soil_k(double rew) const {
    const double m = 1.0 - 1.0 / c_.curve.texture().n, se = saturation(rew);
    const double inner = 1.0 - std::pow(1.0 - std::pow(se, 1.0 / m), m);
    return std::sqrt(se) * inner * inner;
  }

  Input inputs(const uptake::HourWeather& w, double& water_mm) const {
    const double vpd = std::max(0.0, es(w.temp_c) - es(std::min(w.temp_c, w.dew_point_c)));
    const double rew = std::clamp(w.rew + w.rew_sd * d_.soil_z, 0.0, 1.5);
    const double lai = std::max(leaf_area_ / crown_area_ * w.leaf_share, 0.01);
    const auto& crown = c_.subject.source.tree.wet_crown;
    const double holds = crown.store_mm_per_lai * lai;
    const double caught = std::min(holds, water_mm + w.rain_mm + std::max(0.0, -w.reference_mm));
    water_mm = caught / (1.0 + crown.drying_factor * std::max(0.0, w.reference_mm) / holds);
    const double wet = 0.5 * (caught + water_mm) / holds;

    const double f_light = crown_light(w.shortwave_w_m2, lai) / crown_light(s_.reference_light_w_m2, s_.reference_lai);  // (4)
    const double f_dry = std::max(s_.vpd_floor, 1.0 - s_.vpd_slope * std::log(std::max(vpd, s_.vpd_cap_kpa)));           // (5)
    const double cool = std::clamp((s_.temp_low_c - w.temp_c) / (s_.temp_low_c - s_.temp_min_c), 0.0, 1.0);
    const double hot = std::clamp((w.temp_c - s_.temp_high_c) / (s_.temp_max_c - s_.temp_high_c), 0.0, 1.0);
    const double f_temp = (1.0 - cool * cool) * (1.0 - hot * hot);
    const double k = d_.rew_knee_sharpness;
    const double f_water = std::max(0.0, -std::log(std::exp(-k) + std::exp(-k * rew / d_.rew_knee)) / k);  // (6)
    const double ramp = std::clamp(w.soil_temp_c / s_.cold_full_c, 0.0, 1.0);
    const double f_cold = std::min(1.0, thinner(std::max(0.0, w.soil_temp_c))) * ramp;                          // (7)
    const double f_flood = 1.0 - (1.0 - s_.flooded_share) * std::min(1.0, w.saturated_h / s_.flooded_after_h);  // (7b)
    const double g = d_.g_ref_mmol_m2_s * f_light * f_dry * f_temp * f_water * f_cold * f_flood;
    const double litres = 1e-3 * vpd / w.pressure_kpa * 0.01802 * 3600.0 * leaf_area_ * w.leaf_share * (1.0 - wet);  // (8)

    Input in{};
    in.soil_mpa = soil_mpa(rew);
    const double cold = thinner(std::max(0.0, w.soil_temp_c)) * std::clamp(w.soil_temp_c / s_.cold_full_c, 1e-6, 1.0);
    const double soil = std::max(1e-9, soil_k(rew) / soil_k(d_.rew_half_conductance));
    in.root = 1.0 / (1.0 / (root_0_ * cold) + 1.0 / (root_0_ * soil));  // (9)
    in.xylem = xylem_0_ * thinner(w.temp_c);
    in.port = thinner(0.5 * (w.temp_c + w.soil_temp_c));
    const double lived_with = in.soil_mpa - c_.subject.source.ports.native_soil_drop_mpa * f_water / soil;  // (13a)
    in.native = std::pow(2.0, -std::pow(-lived_with / d_.native_p50_mpa, c_.subject.source.ports.native_shape));
    in.stomata_l_h = g * litres;
    in.cuticle_l_h = s_.minimum_mmol_m2_s * litres;
    return in;
  }

  const bench::Case& c_;
  uptake::Draw<double> d_;
  const tree::Stomata& s_;
  double leaf_area_, crown_area_, ports_, root_0_, xylem_0_, base_store_, crown_store_, lift_, p50_shape_, lumens_max_, pressure_, port_0_;
  std::vector<Input> hours_;
};

}  // namespace independent
