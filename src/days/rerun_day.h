// An answered day run again with one thing changed, for its advice. docs/model/days.md, Advice.
#pragma once
#include <map>
#include <vector>

#include "days/clock.h"
#include "days/crew_day.h"
#include "days/crown_water.h"
#include "days/day_answer.h"
#include "days/frame.h"

namespace days {

// What the day's answer was found from; all of it outlives the reruns.
struct AnsweredFrom {
  const TreeCase& tree;
  const Outlook& outlook;
  const CrownWater& crown;
  const ForecastError& error;
  const CrewDay& crew;
  const Settings& settings;
  std::size_t first;  // the outlook's hour that the draws' own hours begin with
  bool forecast_old;  // beyond Decision::oldest_forecast_h

  // Hours of the draws until `instant`.
  [[nodiscard]] double draws_h(units::UtcTime instant) const { return hours_between(outlook.begins(first), instant); }
};

// Over the draws that the search for the start uses, for one day after the other.
class RerunDay {
 public:
  // `ensemble` is set to the outlook from `from.first` on, and stays so.
  RerunDay(const AnsweredFrom& from, double good_h, uptake::Ensemble& ensemble);

  [[nodiscard]] std::vector<Advice> advice(const Frame& frame, const DayAnswer& answer, units::UtcTime now);

 private:
  [[nodiscard]] Trial run(const Frame& frame, const DayAnswer& answer, units::UtcTime earliest, const Change& change);
  const uptake::Finishes& as_forecast(units::UtcTime open);
  [[nodiscard]] uptake::Finishes under_other_water(const Frame& frame, units::UtcTime open, const Change& change);

  AnsweredFrom from_;
  Practice dug_practice_;  // of a crew that finds the flare dug
  CrewDay dug_;
  uptake::Ensemble& ensemble_;
  uptake::Ensemble rewatered_;                        // those draws once more, for water that the day does not have
  std::map<units::UtcTime, uptake::Finishes> as_is_;  // of the day at hand, by the opening of the valves
};

}  // namespace days
