// What readings of the tank make of a job under way: new finish time, what was to be expected by now, the odds to finish, and whether the
// next tank is mixed. docs/model/days.md, At the tree.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "days/practice.h"
#include "days/quantiles.h"
#include "days/tree_case.h"
#include "uptake/ensemble.h"
#include "uptake/readings.h"

namespace days {

// A job under way. Hours count from the opening of the valves.
struct JobSoFar {
  std::vector<uptake::Reading> readings;  // by time (uptake/readings.h, in_order); may be empty
  double shut_h = 0.0;                    // valves shut by
  double stop_h = 0.0;                    // that, or the next hold if it begins earlier: no mix is sure beyond
  std::optional<double> mixed_l;  // put into the tank so far; else as many full tanks as were needed for what is taken, at least one

  // The times at which the draws must be followed: of the readings, then the stop (days/job_draws.h).
  [[nodiscard]] std::vector<double> times_h() const;
};

enum class TankAdvice {
  nothing_left,  // the whole dose is mixed
  mix,           // the next tank, in full or what is left of the dose
  mix_part,      // only so much of it
  do_not_mix
};

struct TreeNow {
  Quantiles finish_h, before_h;    // dose in, from the opening: after the readings, and before any
  Quantiles normal_l, normal_l_h;  // before any reading: expected by the last one, and an hour over the time its rate is seen
  std::optional<double> rate_l_h;  // seen, over `rate_over_h` or more up to the last reading
  double chance_to_finish = 0.0;   // dose in before valves must be shut; holds not counted
  double chance_before = 0.0;      // likewise, before any reading
  double mc_error = 0.0;           // standard error of chance_to_finish
  double effective_draws = 0.0;    // that carry the answer
  double trust = 1.0;              // in the readings; below 1 where they left too few draws (uptake/readings.h)
  double mixed_l = 0.0;            // put into the tank so far, given or assumed
  double sure_l = 0.0;             // goes in after the last reading and before the stop, at the chance that practice asks for
  TankAdvice tank = TankAdvice::do_not_mix;
  double mix_l = 0.0;  // of the next tank
  std::optional<uptake::OddReading> odd;
};

// `drawn` are the job's draws with their volumes at job.times_h(). The answer does not depend on the order in which readings were made
// known; without any it is the one before. A dose that is not in at the last reading is in after it, in every draw.
[[nodiscard]] TreeNow tree_now(const TreeCase& tree, const Practice& practice, const JobSoFar& job, const uptake::Followed& drawn);

}  // namespace days
