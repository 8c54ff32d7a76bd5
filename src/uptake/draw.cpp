#include "uptake/draw.h"

#include <algorithm>
#include <cmath>

#include "units/random.h"

namespace uptake {
namespace {

using units::Lanes;
using units::Uncertain;

// Calls visit(member of Draw, Uncertain) for every parameter and visit_z(member) for every deviate, in coordinate order.
template <class R, class Visit, class VisitZ>
void for_each_parameter(const Source& source, Draw<R>& draw, Visit visit, VisitZ visit_z) {
  const auto& s = source.tree.stomata;
  const auto& h = source.tree.hydraulics;
  const auto& p = source.ports;
  visit(draw.conductance_l_h_mpa, p.conductance_l_h_mpa);
  visit(draw.lumens_l_per_port, p.lumens_l_per_port);
  visit_z(draw.leaf_area_z);
  visit(draw.g_ref_mmol_m2_s, s.g_ref_mmol_m2_s);
  visit_z(draw.soil_z);
  visit(draw.whole_plant_mm_d_mpa, h.whole_plant_mm_d_mpa);
  visit(draw.native_p50_mpa, p.native_p50_mpa);
  visit(draw.p50_mpa, h.p50_mpa);
  visit(draw.hole_factor, p.hole_factor);
  visit(draw.fast_share, p.fast_share);
  visit(draw.elastic_l_m3_mpa, h.elastic_l_m3_mpa);
  visit(draw.flare_factor, source.flare_factor);
  visit(draw.drilling_mpa, p.drilling_mpa);
  visit(draw.lumens_hours, p.lumens_hours);
  visit_z(draw.pace_z);
  visit(draw.root_share, h.root_share);
  visit(draw.psi_half_mpa, s.psi_half_mpa);
  visit(draw.slow_hours, p.slow_hours);
  visit(draw.fast_hours, p.fast_hours);
  visit(draw.rew_half_conductance, h.rew_half_conductance);
  visit(draw.rew_knee, s.rew_knee);
  visit(draw.light_extinction, s.light_extinction);
  visit(draw.backflow, h.backflow);
  visit(draw.rew_knee_sharpness, s.rew_knee_sharpness);
}

double drawn(const Uncertain& parameter, double z) {
  return std::clamp(parameter.value * std::exp(parameter.spread_ln_sd * z), parameter.lowest, parameter.highest);
}

}  // namespace

Draw<double> central_draw(const Source& source) {
  Draw<double> draw{};
  for_each_parameter(
      source, draw, [](double& member, const Uncertain& parameter) { member = parameter.value; }, [](double& member) { member = 0.0; });
  return draw;
}

Deviates sampled_deviates(std::size_t index, std::uint64_t seed) {
  Deviates deviates;
  for (unsigned dimension = 0; dimension < draw_dimensions; ++dimension)
    deviates[dimension] = units::normal_quantile(units::sobol(static_cast<std::uint32_t>(index), dimension, seed));
  return deviates;
}

Draw<double> draw_at(const Source& source, const Deviates& deviates) {
  Draw<double> draw{};
  std::size_t dimension = 0;
  for_each_parameter(
      source, draw, [&](double& member, const Uncertain& parameter) { member = drawn(parameter, deviates[dimension++]); },
      [&](double& member) { member = deviates[dimension++]; });
  return draw;
}

std::vector<Draw<Lanes>> sample_draws(const Source& source, std::size_t count, std::uint64_t seed) {
  std::vector<Draw<Lanes>> blocks((count + Lanes::count - 1) / Lanes::count);
  for (std::size_t block = 0; block < blocks.size(); ++block) {
    unsigned dimension = 0;
    const auto deviates = [&] {
      Lanes z{0.0};
      for (int lane = 0; lane < Lanes::count; ++lane) {
        const std::size_t index = std::min(block * Lanes::count + static_cast<std::size_t>(lane), count - 1);
        z.set(lane, units::normal_quantile(units::sobol(static_cast<std::uint32_t>(index), dimension, seed)));
      }
      ++dimension;
      return z;
    };
    for_each_parameter(
        source, blocks[block],
        [&](Lanes& member, const Uncertain& parameter) { member = units::map(deviates(), [&](double z) { return drawn(parameter, z); }); },
        [&](Lanes& member) { member = deviates(); });
  }
  return blocks;
}

}  // namespace uptake
