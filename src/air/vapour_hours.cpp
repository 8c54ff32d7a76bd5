#include "air/vapour_hours.h"

#include "air/saturation.h"
#include "units/lanes_array.h"
#include "units/wide.h"

namespace air {
namespace {

using units::Lanes;

SAPDRAW_WIDE void fill(std::span<const double> temp_c, std::span<const double> rh_pct, std::span<double> saturation,
                       std::span<double> vpd) {
  units::for_blocks(
      0, temp_c.size(), [&](std::size_t at, auto count) __attribute__((always_inline)) {
        const Lanes full = saturation_kpa(units::load(temp_c.data() + at, count));
        units::store(full, saturation.data() + at, count);
        units::store(max(full - full * (units::load(rh_pct.data() + at, count) * 0.01), 0.0), vpd.data() + at, count);
      });
}

}  // namespace

void vapour_hours(std::span<const double> temp_c, std::span<const double> rh_pct, std::span<double> saturation_kpa,
                  std::span<double> vpd_kpa) {
  fill(temp_c, rh_pct, saturation_kpa, vpd_kpa);
}

}  // namespace air
