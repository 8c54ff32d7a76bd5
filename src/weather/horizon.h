// How far ahead a series carries the model.
#pragma once
#include <optional>

#include "units/time.h"
#include "weather/series.h"

namespace weather {

// Temperature and one of relative humidity or dew point: without them an hour has no drying power.
[[nodiscard]] bool enough(const Series& series, std::size_t hour);

// The last label up to which every hour from `from` on has enough weather; empty where already `from` has not.
[[nodiscard]] std::optional<units::UtcHour> horizon(const Series& series, units::UtcHour from);

}  // namespace weather
