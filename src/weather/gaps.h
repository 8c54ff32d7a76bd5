// Short holes bridged, long ones reported. Rain and maxima are never bridged: an hour nobody measured is not a dry hour.
#pragma once
#include <chrono>
#include <vector>

#include "units/time.h"
#include "weather/series.h"

namespace weather {

struct GapRules {
  // Longest run of missing hours that is bridged where either neighbour was measured.
  std::chrono::hours observed{3};
  // Between two hours of a model: the model's own step is as long as this many missing hours (MET Norway: 6-hourly, five missing).
  std::chrono::hours model{5};
};

// A run of missing hours between two hours that have a value.
struct Gap {
  Variable variable;
  units::UtcHour from;   // label of the first missing hour
  units::UtcHour until;  // label of the last missing hour
  std::chrono::hours hours;
};

// Bridges, linearly in time, the short gaps of instants and means (soil layers too) and marks them `filled`.
// Returns the gaps that stay, in the order of variables and hours: long ones, and every gap of a sum or a maximum.
// Hours before a variable's first value and after its last are not gaps: they are its horizon.
std::vector<Gap> bridge_gaps(Series& series, const GapRules& rules = {});

}  // namespace weather
