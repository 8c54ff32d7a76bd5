// Hours on the clock of a job.
#pragma once
#include <chrono>
#include <cmath>

#include "units/time.h"

namespace days {

inline constexpr double horizon_h = 24.0;  // from the opening of the valves; a dose that is not in by then is not in

// To the second.
[[nodiscard]] inline units::UtcTime later_by(units::UtcTime time, double h) { return time + std::chrono::seconds{std::lround(h * 3600.0)}; }
[[nodiscard]] inline double hours_between(units::UtcTime from, units::UtcTime until) {
  return std::chrono::duration<double, std::ratio<3600>>(until - from).count();
}

}  // namespace days
