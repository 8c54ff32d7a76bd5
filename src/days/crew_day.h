// A crew's day at one tree: when it may come, when the valves must be shut, and what a start comes to. docs/model/days.md (4)-(9).
#pragma once
#include <vector>

#include "days/holds.h"
#include "days/job_time.h"
#include "uptake/ensemble.h"

namespace days {

// A way to work the day, and what it would come to for each draw.
struct Plan {
  units::UtcTime arrive, open;                      // open: of the valves, at the crew's usual pace
  std::vector<double> dose_by_draw, clear_by_draw;  // chances over the paces of the crew
  std::vector<double> cost_by_draw_h;
  double cost_h = 0.0;                           // crew hours expected, a return included
  double spent_h = 0.0;                          // the same of this day alone
  double chance_dose = 0.0, chance_clear = 0.0;  // in before valves must be shut; and no hold began
};

class CrewDay {
 public:
  // `good_h`: uptake of this tree on its reference good day, > 0. Draws of the crew's pace come with those of the tree.
  CrewDay(const TreeCase& tree, const Practice& practice, const uptake::Ensemble& ensemble, double good_h);

  [[nodiscard]] const JobTime& job() const { return job_; }
  // Hours of one draw's crew before the valves open, and after they are shut.
  [[nodiscard]] double before_h(std::size_t draw) const { return job_.before().value * pace_[draw]; }
  [[nodiscard]] double after_h(std::size_t draw) const { return job_.after().value * pace_[draw]; }

  // Arrivals worth looking at, on the start step of practice; at least one where practice is valid.
  [[nodiscard]] std::vector<units::UtcTime> arrivals(units::LocalDay date) const;
  [[nodiscard]] units::UtcTime opens(units::UtcTime arrive) const;
  [[nodiscard]] units::UtcTime off_site_by(units::LocalDay date) const;
  [[nodiscard]] units::UtcTime shut_by(units::LocalDay date) const;

  // Hours of drinking after which a tree that is not done changes nothing that `weigh` makes of this arrival, for a crew of any pace up to
  // seven standard deviations fast; >= 0. Chances are then the same to 2e-12.
  [[nodiscard]] double longest_that_counts_h(units::LocalDay date, units::UtcTime arrive) const;

  // Chances and cost over the draws in `finishes` for an arrival; work ends when valves must be shut or the next hold begins. A crew
  // that does not finish has spent the day and comes back to do the job on a good one. A tree's hours do not depend on the crew's
  // pace, so each draw counts with its expectation over all paces, not with one drawn pace.
  [[nodiscard]] Plan weigh(units::LocalDay date, units::UtcTime arrive, const std::vector<Hold>& barred,
                           const uptake::Finishes& finishes) const;

 private:
  const TreeCase& tree_;
  const Practice& practice_;
  JobTime job_;
  double comeback_h_ = 0.0;
  std::vector<double> pace_;
};

// When a crew must have left on a day, and when its valves must be shut for that.
[[nodiscard]] units::UtcTime off_site_by(const TreeCase& tree, const Practice& practice, units::LocalDay date);
[[nodiscard]] units::UtcTime valves_shut_by(const TreeCase& tree, const Practice& practice, units::LocalDay date);

// When the first hold not over by `from` begins; a year away where there is none.
[[nodiscard]] units::UtcTime next_hold(units::UtcTime from, const std::vector<Hold>& barred);

// Whether a plan beats an earlier one: up to the owner's GO chance the surer, from there on the cheaper. Where no plan is clear of
// holds, the one likeliest to finish without them, and among the hopeless the earliest: it shows the day at its best.
[[nodiscard]] bool better(const Plan& a, const Plan& b, const Decision& decision);

}  // namespace days
