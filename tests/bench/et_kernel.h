// The kernels of src/air over a long record, in the order in which air::complete calls them, a stretch of 40 days at a time so that
// what passes between them stays in the nearest cache.
#pragma once
#include <algorithm>
#include <array>
#include <span>

#include "air/et_hours.h"
#include "air/sky_hours.h"
#include "air/sun_hours.h"
#include "bench/record.h"

namespace bench {

inline void et_kernel(const Record& record, double sky_ratio, std::span<double> fao56_mm_h, std::span<double> asce_short_mm_h) {
  constexpr std::size_t stretch = 960;
  std::array<double, stretch> clear, judging, ratios;
  for (std::size_t from = 0; from < record.hours(); from += stretch) {
    const std::size_t hours = std::min(stretch, record.hours() - from);
    const auto part = [&](const std::vector<double>& column) { return std::span(column).subspan(from, hours); };
    const std::span sky(judging.data(), hours), ratio(ratios.data(), hours);
    air::sun_hours(record.site, record.first_label + std::chrono::hours{static_cast<long>(from)}, {clear.data(), hours}, sky);
    sky_ratio = air::sky_ratios(part(record.shortwave_w_m2), sky, sky_ratio, ratio);
    air::et_hours(
        {part(record.temp_c), part(record.rh_pct), part(record.wind_2m_m_s), part(record.pressure_kpa), part(record.shortwave_w_m2), ratio},
        {{}, fao56_mm_h.subspan(from, hours), asce_short_mm_h.subspan(from, hours), {}});
  }
}

}  // namespace bench
