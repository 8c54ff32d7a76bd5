// Water on the central crown's leaves, followed through a whole outlook from dry leaves on. docs/model/uptake.md.
#pragma once
#include <vector>

#include "days/tree_case.h"
#include "uptake/hour.h"

namespace days {

struct CrownWater {
  std::vector<double> before_mm;  // at the beginning of each hour
  std::vector<double> wet_share;  // of the leaves, over each hour, 0..1
};

[[nodiscard]] CrownWater crown_water(const TreeCase& tree, const std::vector<uptake::HourWeather>& course);

}  // namespace days
