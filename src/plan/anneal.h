// Local search by annealing: jobs are put in, moved, swapped, pushed out; worse plans are accepted ever more rarely.
// Source: Kirkpatrick, Gelatt & Vecchi 1983 (Science 220:671).
#pragma once
#include <cstdint>
#include <functional>

#include "plan/dice.h"
#include "plan/roster.h"

namespace plan {

struct Schedule {
  double hot = 0.5;  // temperatures in the unit of the objective: first and last, falling geometrically
  double cold = 0.005;
  std::uint64_t moves = 0;                    // to try; 0: until `progress` says 1
  std::function<double()> progress{};         // share of this annealing's time that is over; at 1 it ends. May be empty.
  std::function<void(const Roster&)> seen{};  // called now and then in the cold half, for whoever collects crews' days. May be empty.
};

// The best plan met, never worse than `start`.
[[nodiscard]] Roster anneal(const Roster& start, const Schedule& schedule, Dice& dice);

}  // namespace plan
