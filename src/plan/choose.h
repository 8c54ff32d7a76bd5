// The integer programme over given columns: which of them together are worth most. Solved by CBC's branch and cut.
#pragma once
#include <functional>
#include <optional>
#include <vector>

#include "plan/column.h"

namespace plan {

struct Chosen {
  std::optional<std::vector<Column>> columns;  // a plan worth more than `above`; none found otherwise
  double bound = 0.0;                          // no choice among the given columns is worth more than the larger of this and `above`
};

struct ChoiceLimits {
  double above = 0.0;  // an objective: only better plans are of interest
  int nodes = 0;       // of the search tree at most
  std::function<bool()> stop;
};

// `columns` must hold one for each slot with locked jobs.
[[nodiscard]] Chosen choose(const Ground& ground, const std::vector<Column>& columns, const ChoiceLimits& limits);

}  // namespace plan
