#include "soil/redistribution.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace soil {
namespace {

constexpr double exact_mm = 1e-10;
constexpr int most_iterations = 60;

// Outflow (mm in dt) of a layer that would hold `before_mm` if nothing left it: the root q of q = dt K((before - q) / thickness), which
// exists and is single since K rises with water. Ridders' method on [low, high], bounded.
double drained_by_gravity(const Texture& texture, double before_mm, double thickness_mm, double dt_h) {
  const auto excess = [&](double q) { return q - dt_h * conductivity_mm_per_h(texture, (before_mm - q) / thickness_mm); };
  double low = 0.0, at_low = excess(low);
  // So slow that K does not change while it drains.
  constexpr double creep_mm = 1e-6;
  if (-at_low <= creep_mm) return -at_low;
  double high = std::min(-at_low, before_mm - texture.theta_r * thickness_mm), at_high = excess(high);
  for (int i = 0; i < most_iterations && high - low > exact_mm; ++i) {
    const double middle = 0.5 * (low + high), at_middle = excess(middle);
    if (at_middle == 0.0) return middle;
    const double bend = std::sqrt(at_middle * at_middle - at_low * at_high);
    const double guess = middle + (middle - low) * (at_low >= at_high ? 1.0 : -1.0) * at_middle / bend;
    const double at_guess = excess(guess);
    // Four points on the axis: keep the two next to the root.
    for (const auto& [q, value] : {std::pair{middle, at_middle}, std::pair{guess, at_guess}}) {
      if (value <= 0.0 && q > low) {
        low = q;
        at_low = value;
      } else if (value > 0.0 && q < high) {
        high = q;
        at_high = value;
      }
    }
    if (at_low == 0.0) break;
  }
  return low;
}

}  // namespace

Redistribution redistribute(const RootZone& zone, double supply_mm, double dt_h, std::vector<double>& theta) {
  const Texture& texture = zone.texture();
  const std::size_t n = zone.layers();
  const double matrix_mm = dt_h * conductivity_mm_per_h(texture, texture.theta_s);
  const double passable_mm = std::max(matrix_mm, dt_h * zone.parameters().least_infiltration_mm_per_h);

  // What each layer can take in this step, from the bottom up; the last entry is the free outlet.
  std::vector<double> takes(n + 1, matrix_mm);
  for (std::size_t i = n; i-- > 0;) {
    const double room = std::max(0.0, texture.theta_s - theta[i]) * zone.thickness_mm(i);
    takes[i] = room + std::min(passable_mm, takes[i + 1]);
  }

  double inflow = std::min({supply_mm, passable_mm, takes[0]});
  Redistribution result;
  result.left_on_surface_mm = supply_mm - inflow;
  for (std::size_t i = 0; i < n; ++i) {
    const double thickness = zone.thickness_mm(i);
    const double before = theta[i] * thickness + inflow;
    const double overflow = std::max(0.0, before - texture.theta_s * thickness);
    const double gravity = drained_by_gravity(texture, before, thickness, dt_h);
    // Never more than the layer below takes: gravity passes at most the saturated rate, and inflow was admitted with all overflow placed.
    const double outflow = std::max(gravity, overflow);
    theta[i] = (before - outflow) / thickness;
    inflow = outflow;
  }
  result.drained_mm = inflow;
  return result;
}

}  // namespace soil
