// What it costs to leave one promise as it is: the plan is made again with that job locked there.
#pragma once
#include <optional>

#include "plan/schedule.h"

namespace plan {

struct Refusal {
  double cost_h = 0.0;  // what the best plan found is then worth less; 0 or more
  Schedule schedule;
};

// Requires a promised task. Empty where no plan can keep it there.
[[nodiscard]] std::optional<Refusal> refusal(const Office& office, const Schedule& proposed, int task, const Effort& effort);

// Tasks that must move with this one, where it is not to break a rule of the crew's day it comes to: those that leave that day, if the day
// cannot hold both them and all that come. In the order of tasks.
[[nodiscard]] std::vector<int> moves_needed(const Office& office, const Schedule& proposed, int task);

}  // namespace plan
