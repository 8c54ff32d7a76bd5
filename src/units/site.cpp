#include "units/site.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace units {

Metres distance(const Site& a, const Site& b) {
  constexpr double mean_earth_radius_m = 6371008.8;
  constexpr double radians_per_degree = std::numbers::pi / 180.0;
  const double lat_a = a.latitude.value * radians_per_degree;
  const double lat_b = b.latitude.value * radians_per_degree;
  const double half_dlat = 0.5 * (lat_b - lat_a);
  const double half_dlon = 0.5 * (b.longitude - a.longitude).value * radians_per_degree;
  const double haversine = std::pow(std::sin(half_dlat), 2) + std::cos(lat_a) * std::cos(lat_b) * std::pow(std::sin(half_dlon), 2);
  return Metres{2.0 * mean_earth_radius_m * std::asin(std::sqrt(std::min(1.0, haversine)))};
}

}  // namespace units
