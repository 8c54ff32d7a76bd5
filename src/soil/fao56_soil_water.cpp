#include "soil/fao56_soil_water.h"

#include <algorithm>
#include <cmath>

namespace soil::fao56 {

using units::Metres;
using units::Millimetres;

Millimetres total_available_water(double theta_field_capacity, double theta_wilting, Metres rooting_depth) {
  return Millimetres{1000.0 * (theta_field_capacity - theta_wilting) * rooting_depth.value};
}

double adjusted_depletion_share(double p_table, Millimetres etc_per_day) {
  return std::clamp(p_table + 0.04 * (5.0 - etc_per_day.value), 0.1, 0.8);
}

double stress_coefficient(Millimetres total_available, Millimetres depletion, double p) {
  return std::clamp((total_available - depletion) / ((1.0 - p) * total_available), 0.0, 1.0);
}

Millimetres total_evaporable_water(double theta_field_capacity, double theta_wilting, Metres layer) {
  return Millimetres{std::max(0.0, 1000.0 * (theta_field_capacity - 0.5 * theta_wilting) * layer.value)};
}

double evaporation_reduction(Millimetres depletion, Millimetres readily_evaporable, Millimetres total_evaporable) {
  if (depletion <= readily_evaporable) return 1.0;
  return std::clamp((total_evaporable - depletion) / (total_evaporable - readily_evaporable), 0.0, 1.0);
}

double kc_max(double kcb, const Climate& climate) {
  const double dry_windy = 0.04 * (climate.wind_2m.value - 2.0) - 0.004 * (climate.rh_min_pct - 45.0);
  return std::max(1.2 + dry_windy * std::pow(climate.crop_height.value / 3.0, 0.3), kcb + 0.05);
}

double covered_share(double kcb, double kc_min, double kc_max, Metres crop_height) {
  const double rise = std::max(0.01, kcb - kc_min) / (kc_max - kc_min);
  return std::clamp(std::pow(rise, 1.0 + 0.5 * crop_height.value), 0.0, 0.99);
}

double exposed_wet_share(double covered, double wetted) { return std::min(1.0 - covered, wetted); }

double evaporation_coefficient(double kr, double kcb, double kc_max, double exposed_wet) {
  return std::max(0.0, std::min(kr * (kc_max - kcb), exposed_wet * kc_max));
}

Depletion water_then_loss(Millimetres start, Millimetres water, Millimetres loss, Millimetres total) {
  const double wetted = start.value - water.value;
  const double percolation = std::max(0.0, -wetted);
  return {Millimetres{std::clamp(std::max(wetted, 0.0) + loss.value, 0.0, total.value)}, Millimetres{percolation}};
}

Depletion daily_balance(Millimetres start, Millimetres water, Millimetres loss, Millimetres total) {
  const double percolation = std::max(0.0, water.value - loss.value - start.value);
  return {Millimetres{std::clamp(start.value - water.value + loss.value + percolation, 0.0, total.value)}, Millimetres{percolation}};
}

}  // namespace soil::fao56
