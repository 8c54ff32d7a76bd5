// Writes hours in the shape of MET Norway's compact location forecast: hourly steps, then six-hourly ones, sums that look forward.
#pragma once
#include <string>
#include <vector>

#include "generator/hours.h"

namespace samples {

// Steps from the first of `hours` on; hourly for the first two days and a bit, until a step falls on 00, 06, 12 or 18 UTC.
[[nodiscard]] std::string met_forecast(const Story& story, const std::vector<Hour>& hours);

}  // namespace samples
