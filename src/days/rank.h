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

// GO before TIGHT before NO GO, inside each by expected cost; neighbours of one verdict closer than `tie_h` to the first of their
// group tie and stand in calendar order.
[[nodiscard]] std::vector<Ranked> rank(const std::vector<DayAnswer>& answers, double tie_h);

}  // namespace days
