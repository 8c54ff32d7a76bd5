// Whether it pays to leave a job unbooked until a fresher forecast is at hand: the expected value of that forecast's news.
// Method: the value of sample information from one set of draws. Each day's cost less the cheapest day's is regressed on how both
// days' weather departs from the forecast (Strong, Oakley & Brennan 2014, Medical Decision Making 34:311), and what a fresher forecast
// will tell of that is scaled by the share of the error's variance it resolves (moment matching, Heath et al. 2018, Medical Decision
// Making 38:163). docs/model/days.md (21)-(23).
#pragma once
#include <optional>
#include <vector>

#include "days/day_answer.h"
#include "units/time.h"

namespace days {

struct Wait {
  units::UtcTime decide_by;
  double gain_h = 0.0;                      // crew hours that deciding then saves on average, against booking the cheapest day now
  std::vector<units::LocalDay> contenders;  // the days likeliest to turn out the cheapest: two or three, by date
};

// What is decided when.
struct Decider {
  units::UtcTime now, issued;  // of the forecast in hand
  units::ZoneOffsets zone;
  std::size_t members = 1;  // of an ensemble; its blocks of draws belong to the members in turn
};

// The best evening to wait for, whatever it is worth: before one of the days, at the owner's hour, with a forecast newer than the one in
// hand; days before it are given up. Empty where no such evening is worth more than nothing.
[[nodiscard]] std::optional<Wait> best_wait(const std::vector<DayAnswer>& answers, const Practice& practice, const Decider& decider);

// The same, where it is worth the owner's `worth_waiting_h`.
[[nodiscard]] std::optional<Wait> worth_waiting(const std::vector<DayAnswer>& answers, const Practice& practice, const Decider& decider);

}  // namespace days
