#include "days/rewatered.h"

#include <algorithm>

namespace days {

std::vector<uptake::Scenario> rewatered(std::vector<uptake::Scenario> as_is, const uptake::Subject& subject, const Change& change,
                                        std::size_t open_hour) {
  const double lai = uptake::plant(subject, uptake::central_draw(subject.source)).size.lai;
  const double wetting_mm = change.wetted_share * subject.source.tree.wet_crown.store_mm_per_lai * lai;
  for (uptake::Scenario& course : as_is) {
    for (uptake::HourWeather& hour : course.hours) hour.rew = std::max(hour.rew, std::min(1.0, hour.rew + change.soak_rew));
    if (wetting_mm <= 0.0) continue;
    // Like dew: not spread by what a draw makes of the rain, and nothing dries while it falls.
    uptake::HourWeather& before = course.hours[open_hour - 1];
    before.reference_mm = std::min(before.reference_mm, 0.0) - wetting_mm * before.leaf_share;
  }
  return as_is;
}

}  // namespace days
