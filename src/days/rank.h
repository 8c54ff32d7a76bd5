// The order of a tree's days: what may go before what may not, then by what the day is expected to cost the crew.
#pragma once
#include <vector>

#include "days/day_answer.h"

namespace days {

struct Ranked {
  std::size_t day;  // index into the answers
  int rank;         // from 1; days that tie share a rank
  bool tied;        // with the day before or after it in this order: closer than the forecast can tell
};

// Chance, over the draws, that `a` costs less than `b`: the same tree on both days, each in its own weather. Equal costs count half.
// Both must hold the costs of the same draws, at least one.
[[nodiscard]] double chance_cheaper(const DayAnswer& a, const DayAnswer& b);

// GO before TIGHT before NO GO, inside each by expected cost. A day ties with the first of its group where its cost is within
// `tie_least_h` of it or where that one is not `tie_sureness` sure to be the cheaper; tied days stand in calendar order.
[[nodiscard]] std::vector<Ranked> rank(const std::vector<DayAnswer>& answers, const Decision& decision);

}  // namespace days
