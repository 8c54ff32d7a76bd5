#include "air/sky_hours.h"

#include <cstddef>

#include "units/lanes_array.h"
#include "units/wide.h"

namespace air {
namespace {

using units::Lanes;

SAPDRAW_WIDE double fill(std::span<const double> shortwave_w_m2, std::span<const double> judging_sky_w_m2, double last,
                         std::span<double> ratios) {
  units::for_blocks(
      0, ratios.size(), [&](std::size_t at, auto count) __attribute__((always_inline)) {
        const Lanes sky = units::load(judging_sky_w_m2.data() + at, count);
        const Lanes own = units::load(shortwave_w_m2.data() + at, count) / select(sky > 0.0, sky, 1.0);
        units::store(own, ratios.data() + at, count);
        for (std::size_t i = at; i < at + count; ++i) ratios[i] = last = judging_sky_w_m2[i] > 0.0 ? ratios[i] : last;
      });
  return last;
}

}  // namespace

std::optional<double> first_sky_ratio(std::span<const double> shortwave_w_m2, std::span<const double> judging_sky_w_m2) {
  for (std::size_t hour = 0; hour < judging_sky_w_m2.size(); ++hour)
    if (judging_sky_w_m2[hour] > 0.0) return shortwave_w_m2[hour] / judging_sky_w_m2[hour];
  return std::nullopt;
}

double sky_ratios(std::span<const double> shortwave_w_m2, std::span<const double> judging_sky_w_m2, double before,
                  std::span<double> ratios) {
  return fill(shortwave_w_m2, judging_sky_w_m2, before, ratios);
}

}  // namespace air
