// What one day holds for one tree: best start, hours as a range, chance to finish, verdict, holds, reasons, advice.
#pragma once
#include <optional>
#include <vector>

#include "days/advice.h"
#include "days/conditions.h"
#include "days/forecast_error.h"
#include "days/holds.h"
#include "days/job_time.h"
#include "days/outlook.h"
#include "days/quantiles.h"
#include "days/reasons.h"
#include "days/tree_case.h"
#include "days/verdict.h"
#include "uptake/ensemble.h"

namespace days {

// One arrival on a day, as the search for the best saw it: over its first draws.
struct Start {
  units::UtcTime arrive;
  double reserve_h = 0.0;         // so long on site suffices as often as practice asks; else until the crew must be off site
  double spent_h = 0.0;           // crew hours on site expected
  double chance_all_clear = 0.0;  // as below
  std::vector<double> on_site_h;  // by draw, rising; infinite where it does not finish
};

struct DayAnswer {
  units::LocalDay date;
  Verdict verdict = Verdict::no_go;
  units::UtcTime arrive, valves_open, valves_shut_by, off_site_by;
  Quantiles uptake_h;   // dose in, from the opening of the valves; within 24 h
  Quantiles on_site_h;  // arrival to departure, dose and flush in
  std::optional<units::UtcTime> off_site_p50, off_site_p90;
  Quantiles peak_rate_l_h;
  std::vector<double> rate_l_h;   // median, by half hour from the opening of the valves
  double chance_to_finish = 0.0;  // dose in before valves must be shut; holds not counted
  double chance_all_clear = 0.0;  // dose and flush in before valves must be shut or the first hold begins: what the verdict rests on
  double mc_error = 0.0;          // standard error of chance_to_finish from the number of draws
  double expected_cost_h = 0.0;   // crew hours, a return included
  int sure_tanks = 0;             // tanks that go in before shut-off with the chance that practice asks for
  Conditions conditions;
  std::vector<Hold> holds;
  std::vector<weather::Alert> watches;  // of the weather service, over the hours that are looked at for holds
  Reasons why;
  std::vector<Advice> advice;
  bool rain_known = true;
  // By draw, for comparing days: crew hours expected of that tree in that weather, and how its weather departs from the forecast in
  // the hours from arrival to the end of work (empty for an ensemble, whose blocks of draws belong to its members in turn).
  std::vector<double> cost_by_draw_h;
  std::vector<double> clear_by_draw;  // chances to be all clear
  std::vector<Departure> departures;
  std::vector<Start> starts;  // by arrival, `arrive` among them: what else the day could be begun with
};

struct Settings {
  Practice practice;
  std::size_t search_draws = 64;
  std::uint64_t seed = 1;
};

// The answer for a day as it is booked, which may have begun before `now`: for an arrival at `arrive` on it, without one for the best.
// Empty where the weather does not reach from the rest that a tree needs before its valves open to the day's end. No advice is given.
[[nodiscard]] std::optional<DayAnswer> answer_booked(const TreeCase& tree, const Outlook& outlook, uptake::Ensemble& ensemble,
                                                     const Settings& settings, units::UtcTime now, units::LocalDay date,
                                                     std::optional<units::UtcTime> arrive);

// The answers for every local day that begins at or after `now` and whose weather is known to its end, in order. `ensemble` holds
// the draws of this tree; it is set to the hours of all these days in one piece.
[[nodiscard]] std::vector<DayAnswer> answer_days(const TreeCase& tree, const Outlook& outlook, uptake::Ensemble& ensemble,
                                                 const Settings& settings, units::UtcTime now);

}  // namespace days
