// Which forecast speaks for a site.
#pragma once
#include <optional>
#include <span>

#include "units/quantity.h"
#include "units/site.h"
#include "weather/series.h"

namespace weather {

// Beyond this a forecast is still used, and the user is told.
inline constexpr units::Metres far_from_site{25'000.0};

struct Nearest {
  std::size_t index = 0;                  // into the forecasts
  std::optional<units::Metres> distance;  // absent where the chosen forecast states no place
};

// The forecast whose place is nearest; the first of equals. One that states no place is taken only when none does.
// Empty without forecasts.
[[nodiscard]] std::optional<Nearest> nearest(std::span<const Forecast> forecasts, const units::Site& site);

}  // namespace weather
