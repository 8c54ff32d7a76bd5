// MET Norway locationforecast 2.0 (the reply body, compact or complete).
//
// Steps are hourly for the first days, then 6-hourly. Figures of a step are instants; what follows a step comes as sums that START there:
// next_1_hours where the step has it, else next_6_hours spread evenly over its hours (marked derived), never both, and never beyond the
// next step. The hours between two 6-hourly instants stay missing; weather/gaps.h bridges them and marks them filled.
// Sea-level pressure is brought to the site's elevation (feeds/sea_level.h) where one is known, else not read.
// Thunder: the stated probability, else 100 % where a step's symbol speaks of thunder and 0 where it does not.
#pragma once
#include <vector>

#include "feeds/json_node.h"
#include "feeds/read.h"

namespace feeds {

[[nodiscard]] bool is_met_norway(const JsonNode& root);
[[nodiscard]] units::Result<std::vector<weather::Forecast>> read_met_norway(const JsonNode& root, const ReadOptions& options);

}  // namespace feeds
