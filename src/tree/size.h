// From trunk diameter to crown: leaf area, crown projection, height, sapwood, with the spread between trees of one diameter.
// Fits pooled over measured open-grown trees (McPherson, van Doorn & Peper 2016, Urban Tree Database); docs/model/tree.md eq. (1).
#pragma once
#include <cmath>
#include <numbers>
#include <optional>

#include "tree/parameters.h"
#include "units/lanes.h"
#include "units/quantity.h"

namespace tree {

template <class R>
struct Size {
  R leaf_area_m2;
  R crown_area_m2;  // projection on the ground
  R height_m;
  R sapwood_m3;
  R lai;            // leaf area over crown projection
};

// What is known of one tree's size. Diameter at breast height, 2..400 cm; a measured crown diameter narrows the leaf area.
struct Measured {
  units::Centimetres dbh;
  std::optional<units::Metres> crown_diameter;
};

// Spread of ln(leaf area) that remains: a measured crown takes away the part that crown size explains, since leaf area is
// taken in proportion to the measured projection and crown area varies with twice the spread of its diameter.
[[nodiscard]] inline double leaf_area_ln_sd(const Allometry& fit, const Measured& measured) {
  const double sd = fit.leaf_area_m2.ln_sd;
  if (!measured.crown_diameter) return sd;
  const double explained = 2.0 * fit.crown_diameter_m.ln_sd;
  return std::sqrt(std::max(0.25 * sd * sd, sd * sd - explained * explained));
}

// `leaf_area_z` is the tree's standard normal deviate of ln(leaf area); `huber` leaf area over sapwood area, m2/m2.
template <class R>
[[nodiscard]] Size<R> size(const Allometry& fit, const Measured& measured, double huber, R leaf_area_z) {
  using std::exp;
  using units::exp;
  const double ln_dbh = std::log(measured.dbh.value);
  const auto median = [ln_dbh](const LogLogFit& f) { return std::exp(f.intercept + f.slope * ln_dbh); };
  const auto disc = [](double diameter) { return std::numbers::pi / 4.0 * diameter * diameter; };
  const double crown_fit_m2 = disc(median(fit.crown_diameter_m));
  const double crown_m2 = measured.crown_diameter ? disc(measured.crown_diameter->value) : crown_fit_m2;
  const double height = median(fit.height_m);
  const R leaves = median(fit.leaf_area_m2) * (crown_m2 / crown_fit_m2) * exp(leaf_area_z * leaf_area_ln_sd(fit, measured));
  return {leaves, R(crown_m2), R(height), leaves * (height / huber), leaves / crown_m2};
}

}  // namespace tree
