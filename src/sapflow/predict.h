// From a stand's record to a range for every hour: demand fitted, level followed, errors learned on weeks left out.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "sapflow/demand.h"
#include "sapflow/hours.h"
#include "sapflow/parameters.h"
#include "sapflow/spread.h"
#include "tree/parameters.h"

namespace sapflow {

struct Prediction {
  Demand demand;
  std::vector<std::optional<Range>> hours;  // empty where the weather is not known
};

// `samples` in rising order of hours, each in a known hour; none gives the prior's flow at its median, with the level's spread alone.
[[nodiscard]] Prediction predict(const tree::Stomata& stomata, const Parameters& parameters, const Form& form, const Hours& hours,
                                 std::span<const Sample> samples);

}  // namespace sapflow
