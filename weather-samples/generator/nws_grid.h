// Writes hours in the shape of the US National Weather Service's raw grid: layers of intervals, equal neighbours merged,
// rain as totals over six hours, layers that end at different times, layers without values.
#pragma once
#include <string>
#include <vector>

#include "generator/hours.h"

namespace samples {

// The grid starts at the first of `hours`; `updated` is the time at which the office wrote it.
[[nodiscard]] std::string nws_grid(const Story& story, const std::vector<Hour>& hours, UtcHour updated);

}  // namespace samples
