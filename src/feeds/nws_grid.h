// US National Weather Service raw grid (GeoJSON of /gridpoints/{office}/{x},{y}).
//
// Every layer is a list of intervals, half-open [start, start + duration). A value holds at each full hour from its start until its end
// (equal neighbours are merged by the service); rain totals are spread evenly over their hours, which are then marked derived; chances and
// gusts hold in every hour that starts in the interval. Layers end at different times and may be empty: what is not there is missing, not
// 0. Thunder: the larger of probabilityOfThunder and what the words of weather[] stand for; a grid without the word has 0. Not read: day
// and night extremes, apparent temperatures, waves, hazards, and every layer we do not know. There is no radiation and no soil.
#pragma once
#include <vector>

#include "feeds/json_node.h"
#include "feeds/read.h"

namespace feeds {

[[nodiscard]] bool is_nws_grid(const JsonNode& root);
[[nodiscard]] units::Result<std::vector<weather::Forecast>> read_nws_grid(const JsonNode& root, const ReadOptions& options);

}  // namespace feeds
