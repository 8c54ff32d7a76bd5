#include "days/crown_water.h"

#include <algorithm>

#include "tree/wet_crown.h"
#include "uptake/plant.h"

namespace days {

CrownWater crown_water(const TreeCase& tree, const std::vector<uptake::HourWeather>& course) {
  const auto plant = uptake::plant(tree.subject, uptake::central_draw(tree.subject.source));
  CrownWater water;
  double on_leaves = 0.0;
  for (const uptake::HourWeather& w : course) {
    water.before_mm.push_back(on_leaves);
    const double lai = std::max(plant.size.lai * w.leaf_share, 0.01);
    water.wet_share.push_back(tree::wet_hour(tree.subject.source.tree.wet_crown, lai, w.rain_mm, w.reference_mm, on_leaves));
  }
  return water;
}

}  // namespace days
