// A piece of a plan taken out to be solved better while the rest stays: some crews' days, the jobs on them, and the jobs left out.
#pragma once
#include <vector>

#include "plan/dice.h"
#include "plan/roster.h"

namespace plan {

struct Part {
  Instance instance;      // all crews and days, but those outside the part are off, and rigs in use elsewhere are gone
  std::vector<int> jobs;  // the whole problem's index of each of its jobs
  Plan now;               // how its jobs are booked
};

// `slots`: each once.
[[nodiscard]] Part part_of(const Roster& roster, const std::vector<int>& slots);

// The roster with the part's jobs booked as `plan` says, which must keep the part's rules.
[[nodiscard]] Roster with_part(const Roster& roster, const std::vector<int>& slots, const Part& part, const Plan& plan);

// The slot and those `count` - 1 others that could trade most jobs with it; ties and near ties fall by `dice`.
[[nodiscard]] std::vector<int> related_slots(const Roster& roster, int slot, int count, Dice& dice);

}  // namespace plan
