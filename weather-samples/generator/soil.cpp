#include "generator/soil.h"

#include <algorithm>
#include <cmath>

namespace samples {
namespace {

constexpr std::array<double, 4> thickness_mm{100, 300, 600, 1000};
constexpr std::array<double, 4> uptake_share{0.38, 0.40, 0.18, 0.04};
constexpr std::array<double, 4> memory_h{10, 5 * 24, 20 * 24, 50 * 24};
constexpr double share_of_sun_that_evaporates = 0.38;

void let_in(const Ground& ground, double rain_mm, std::array<double, 4>& water) {
  double falling_mm = 0.85 * rain_mm;  // the rest stays on leaves
  for (std::size_t layer = 0; layer < water.size(); ++layer) {
    const double taken_mm = std::min(falling_mm, (ground.saturation - water[layer]) * thickness_mm[layer]);
    water[layer] += taken_mm / thickness_mm[layer];
    falling_mm = std::min(falling_mm - taken_mm, 2.0);  // what a slow layer does not take within the hour runs off
    const double above_mm = std::max(0.0, water[layer] - ground.field_capacity) * thickness_mm[layer];
    const double drained_mm = above_mm * (1.0 - std::exp(-ground.drains_per_day / 24.0));
    water[layer] -= drained_mm / thickness_mm[layer];
    falling_mm += drained_mm;
  }
}

void draw_out(const Ground& ground, const Hour& hour, std::array<double, 4>& water) {
  constexpr double mm_per_w_m2_hour = 3600.0 / 2.45e6;
  const double warmth = std::clamp((hour.temp_c - 2.0) / 14.0, 0.1, 1.0);
  const double wanted_mm = share_of_sun_that_evaporates * warmth * mm_per_w_m2_hour * hour.shortwave_w_m2;
  for (std::size_t layer = 0; layer < water.size(); ++layer) {
    const double fill = (water[layer] - ground.wilting) / (ground.field_capacity - ground.wilting);
    water[layer] -= wanted_mm * uptake_share[layer] * std::clamp(2.0 * fill, 0.0, 1.0) / thickness_mm[layer];
  }
}

}  // namespace

void add_soil(const Ground& ground, std::vector<Hour>& hours) {
  std::array<double, 4> water{};
  water.fill(ground.wilting + ground.first_fill * (ground.field_capacity - ground.wilting));
  double mean_c = 0.0;
  const std::size_t first_days = std::min<std::size_t>(hours.size(), 72);
  for (std::size_t i = 0; i < first_days; ++i) mean_c += hours[i].temp_c / static_cast<double>(first_days);
  std::array<double, 4> temp_c{mean_c, mean_c - 0.5, mean_c - 2.5, mean_c - 4.0};
  for (Hour& hour : hours) {
    let_in(ground, hour.rain_mm, water);
    draw_out(ground, hour, water);
    hour.soil_m3_m3 = water;
    for (std::size_t layer = 0; layer < temp_c.size(); ++layer) {
      const double sun_c = layer == 0 ? hour.shortwave_w_m2 / 160.0 : 0.0;
      temp_c[layer] += (hour.temp_c + sun_c - temp_c[layer]) / memory_h[layer];
    }
    hour.soil_c = temp_c;
  }
}

}  // namespace samples
