// Whether the next forecasts may still save a day that does not look good enough now.
#pragma once
#include <optional>

#include "days/wait.h"

namespace days {

struct Turn {
  units::UtcTime decide_by;  // the evening before the day, at the owner's hour
  double chance = 0.0;       // that the forecast of that evening gives the day at least the chance asked for
};

// For the day at index `day` of the answers; method as in days/wait.h, with the chance to be all clear in the place of the cost. Empty
// where that evening is over, or brings no fresher forecast than the one in hand.
[[nodiscard]] std::optional<Turn> may_turn(const std::vector<DayAnswer>& answers, std::size_t day, double at_least, const Practice& practice,
                                           const Decider& decider);

}  // namespace days
