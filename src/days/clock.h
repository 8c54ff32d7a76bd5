// Hours on the clock of a job.
#pragma once
#include <chrono>
#include <cmath>

#include "units/time.h"

namespace days {

inline constexpr double horizon_h = 24.0;  // from the opening of the valves; a dose that is not in by then is not in

// To the second.
[[nodiscard]] inline std::chrono::seconds seconds(double h) { return std::chrono::seconds{std::lround(h * 3600.0)}; }
[[nodiscard]] inline units::UtcTime later_by(units::UtcTime time, double h) { return time + seconds(h); }
// The instant at which the wall clock of a place shows `h` hours of a day.
[[nodiscard]] inline units::UtcTime at_wall_clock(const units::ZoneOffsets& zone, units::LocalDay date, double h) {
  return zone.to_utc(units::LocalTime{date} + seconds(h));
}
[[nodiscard]] inline double hours_between(units::UtcTime from, units::UtcTime until) {
  return std::chrono::duration<double, std::ratio<3600>>(until - from).count();
}
[[nodiscard]] inline double days_between(units::UtcTime from, units::UtcTime until) { return hours_between(from, until) / 24.0; }

}  // namespace days
