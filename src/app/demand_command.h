// `sapdraw demand`: what a tree's leaves ask of its roots, hour by hour.
#pragma once
#include <filesystem>
#include <string>

#include "app/outcome.h"
#include "app/request.h"

namespace app {

struct DemandRequest {
  WeatherRequest weather;
  std::filesystem::path trees;
  std::string tree;
};

// The tree in the middle of its kind, undrilled, through the hours of the weather, past and ahead, as CSV (also where text is asked for)
// or JSON: vapour pressure deficit, shortwave, relative extractable water, wet share of the leaves, what a well-supplied crown would
// transpire, and the potentials of stem base and crown at the end of the hour, in MPa. `time_utc` ENDS the hour. A past hour without
// temperature or humidity borrows another day's air, and a warning counts such hours.
[[nodiscard]] Outcome demand_command(const Common& common, const DemandRequest& request);

}  // namespace app
