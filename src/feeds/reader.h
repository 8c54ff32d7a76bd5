// What the readers of the four shapes share with read_weather and nobody else.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "feeds/read.h"
#include "units/fault.h"
#include "weather/series.h"

namespace feeds {

// A fault from below, told where in the input it happened.
[[nodiscard]] inline tl::unexpected<units::Fault> located(units::Fault fault, std::string where) {
  fault.where = std::move(where);
  return tl::make_unexpected(std::move(fault));
}

// The elevation to which sea-level pressure is brought: the caller's, else the source's own; empty where neither says.
[[nodiscard]] inline std::optional<units::Metres> site_elevation(const weather::Forecast& forecast, const ReadOptions& options) {
  if (options.elevation) return options.elevation;
  return forecast.place && forecast.elevation_known ? std::optional{forecast.place->elevation} : std::nullopt;
}

// All series of one input together: what a few hundred places of a fortnight's ensemble need, and no more memory than a laptop has.
inline constexpr std::size_t most_hours_in_one_input = 3'000'000;

}  // namespace feeds
