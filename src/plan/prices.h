// Shadow prices of the shared things: what a job's place in the plan, a crew's day and a day's rigs are worth at the margin.
#pragma once
#include <vector>

#include "plan/cuts.h"

namespace plan {

struct Prices {
  std::vector<double> job;   // 0 or more; nothing for locked jobs, which nobody competes for
  std::vector<double> slot;  // 0 or more where the slot may stay empty
  std::vector<double> rig;   // by day, 0 or more
  struct Cut {
    Triple jobs;
    double price = 0.0;  // 0 or more, of a column that holds two of them
  };
  std::vector<Cut> cuts{};

  // What a column brings beyond the prices of the jobs, rigs and cuts that it takes; its slot's price is not counted.
  [[nodiscard]] double margin(const Ground& ground, const Column& column) const;
};

}  // namespace plan
