// How a dose goes in, half hour by half hour: rates, and how much of it is sure. Volumes are litres since the valves opened, of every draw
// at each full half hour ([half hour][draw], uptake/ensemble.h).
#pragma once
#include <vector>

#include "days/practice.h"
#include "days/quantiles.h"
#include "days/tree_case.h"

namespace days {

struct Rates {
  std::vector<double> median_l_h;  // by half hour
  Quantiles peak_l_h;              // over the draws, of each one's highest
};

// Empty without a full half hour.
[[nodiscard]] Rates rates(const std::vector<std::vector<double>>& volumes_l);

// Tanks of which even the slow draws take every drop before work ends, at the chance that practice asks for. `available_h` of each draw:
// from its own opening of the valves, which follows the crew's pace, to the end of work; negative where it opens them too late. Looks at
// full half hours only.
[[nodiscard]] int sure_tanks(const TreeCase& tree, const SetUp& set_up, const std::vector<std::vector<double>>& volumes_l,
                             const std::vector<double>& available_h);

}  // namespace days
