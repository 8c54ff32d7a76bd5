// The possible trees of a job whose valves have opened, followed through the weather of its day. docs/model/days.md, At the tree.
#pragma once
#include <cstdint>
#include <span>

#include "days/outlook.h"
#include "days/practice.h"
#include "days/tree_case.h"
#include "uptake/ensemble.h"

namespace days {

struct JobStart {
  units::UtcTime opened;  // the valves, on mix
  std::size_t draws = 0;  // at least 1; rounded up so that every course of the outlook has as many blocks as any other
  std::uint64_t seed = 1;
};

// The tree is at rest until it is drilled from a day before its opening on, or from the outlook's beginning: 4 h or more
// (uptake/ensemble.h).
inline constexpr double least_rest_h = 4.0;

// Finish times and the volumes at `at_h`, hours since the opening, within 24 h of it (days/clock.h): for the draws, weathers and seed of
// days/forecast_error.h. `opened` lies in the outlook, `least_rest_h` or more behind its beginning.
[[nodiscard]] uptake::Followed follow_job(const TreeCase& tree, const Outlook& outlook, const WeatherError& error, const JobStart& start,
                                          std::span<const double> at_h);

}  // namespace days
