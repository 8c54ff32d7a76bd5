// A day's hours under other water than they have: sprinklers on the leaves, a soaking in the soil.
#pragma once
#include <vector>

#include "days/advice.h"
#include "uptake/ensemble.h"

namespace days {

// The courses `as_is` with the leaves wetted and the root zone soaked as `change` says. `open_hour` (1 or later) is the hour of the courses
// in which the valves open; sprinklers run in the one before it and their water comes on top of rain and dew. Their amount is the share of
// what the middle tree's crown holds, so a thinner crown is wetted more. Soil that is wetter than field capacity stays as it is.
[[nodiscard]] std::vector<uptake::Scenario> rewatered(std::vector<uptake::Scenario> as_is, const uptake::Subject& subject,
                                                      const Change& change, std::size_t open_hour);

}  // namespace days
