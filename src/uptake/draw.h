// One possible tree: a value for every parameter that is not known exactly. R is double for a single tree and units::Lanes for
// eight draws side by side. Symbols as in docs/model/uptake.md.
#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "tree/parameters.h"
#include "units/lanes.h"
#include "units/uncertain.h"
#include "uptake/parameters.h"

namespace uptake {

template <class R>
struct Draw {
  // Stomata.
  R g_ref_mmol_m2_s, light_extinction, psi_half_mpa, rew_knee, rew_knee_sharpness;
  // Wood and roots.
  R whole_plant_mm_d_mpa, root_share, backflow, rew_half_conductance, p50_mpa, elastic_l_m3_mpa;
  // Ports.
  R conductance_l_h_mpa, hole_factor, fast_share, fast_hours, slow_hours, drilling_mpa, native_p50_mpa, lumens_l_per_port, lumens_hours;
  R flare_factor;
  // Standard normal deviates: of ln(leaf area) given the trunk, of the soil's REW given what is known of it, of a crew's pace.
  R leaf_area_z, soil_z, pace_z;
};

// Every parameter of a draw, in the order of its coordinate in the low-discrepancy sequence: the first are those that move the
// hours most, because Sobol's first coordinates fill best.
inline constexpr unsigned draw_dimensions = 24;

// The parameters a draw is taken from: model values with the spread between trees.
struct Source {
  tree::Parameters tree;  // with the species' own values laid in
  PortParameters ports;
  units::Uncertain flare_factor;
};

// The tree in the middle: every parameter at its value, every deviate at 0.
[[nodiscard]] Draw<double> central_draw(const Source& source);

// A tree's standard normal deviates in coordinate order: those of draw `index` of sample_draws, and the draw that a source makes of them.
using Deviates = std::array<double, draw_dimensions>;
[[nodiscard]] Deviates sampled_deviates(std::size_t index, std::uint64_t seed);
[[nodiscard]] Draw<double> draw_at(const Source& source, const Deviates& deviates);

// `count` draws, `seed` choosing the scrambling: the same trees for every day and start, so that a ranking is not noise.
// Each parameter is value * exp(spread z), kept inside its range. Draws beyond `count` in the last block repeat its last draw.
[[nodiscard]] std::vector<Draw<units::Lanes>> sample_draws(const Source& source, std::size_t count, std::uint64_t seed);

}  // namespace uptake
