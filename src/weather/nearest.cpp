#include "weather/nearest.h"

namespace weather {

std::optional<Nearest> nearest(std::span<const Forecast> forecasts, const units::Site& site) {
  std::optional<Nearest> best;
  for (std::size_t i = 0; i < forecasts.size(); ++i) {
    const auto& place = forecasts[i].place;
    const auto distance = place ? std::optional{units::distance(*place, site)} : std::nullopt;
    const bool nearer = !best || (distance && (!best->distance || *distance < *best->distance));
    if (nearer) best = Nearest{i, distance};
  }
  return best;
}

}  // namespace weather
