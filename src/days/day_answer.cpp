#include "days/day_answer.h"

#include <algorithm>

#include "days/clock.h"
#include "days/crew_day.h"
#include "days/crown_water.h"
#include "days/frame.h"
#include "days/intake.h"
#include "days/job_draws.h"
#include "days/reference_day.h"
#include "days/rerun_day.h"

namespace days {
namespace {

using units::UtcTime;

// The middle tree's hours on its reference good day, valves open at the middle of the morning.
double good_day_hours(const TreeCase& tree, const Settings& settings, UtcTime midnight) {
  constexpr double morning_h = 9.0;
  const auto good = day_of_kind(settings.practice.good_day, tree.site, midnight, static_cast<std::size_t>(morning_h + horizon_h));
  return reference_hours(tree.subject, tree.curve, good, morning_h);
}

// The reasons of a day whose valves open at `open`, over the first block of the tree's draws.
Reasons why(const AnsweredFrom& from, const Frame& frame, const uptake::Draw<units::Lanes>& draws, UtcTime open) {
  constexpr std::size_t rest_h = 4;
  const TreeCase& tree = from.tree;
  const std::size_t open_hour = *from.outlook.hour_at(open);
  const std::size_t begin = std::max(frame.first + rest_h, open_hour) - rest_h;
  const std::size_t count = std::min(open_hour + 1 + static_cast<std::size_t>(horizon_h), frame.until) - begin;
  const auto good = day_of_kind(from.settings.practice.good_day, tree.site, from.outlook.begins(begin), count);
  return reasons(tree.subject, tree.curve, draws, std::span{from.outlook.courses.front()}.subspan(begin, count), good,
                 from.crown.before_mm[begin], hours_between(from.outlook.begins(begin), open));
}

bool rain_known(const Outlook& outlook, const Frame& frame) {
  const auto signs = std::span{outlook.signs}.subspan(frame.first, frame.day_end - frame.first);
  return std::ranges::all_of(signs, &HourSigns::rain_known);
}

Start start_of(const AnsweredFrom& from, units::LocalDay date, const Plan& plan, const uptake::Finishes& finishes) {
  std::vector<double> on_site(finishes.flush_h);
  for (std::size_t i = 0; i < on_site.size(); ++i) on_site[i] += from.crew.before_h(i) + from.crew.after_h(i);
  const double most_h = std::max(0.0, hours_between(plan.arrive, from.crew.off_site_by(date)));
  const double reserve_h = quantile(on_site, from.settings.practice.decision.reserve_sureness).value_or(most_h);
  std::ranges::sort(on_site);
  return {plan.arrive, std::min(reserve_h, most_h), plan.spent_h, plan.chance_clear, std::move(on_site)};
}

// Over the first draws. Every second arrival is tried, then the neighbours of the best: what an hour gains or loses changes slowly from one
// arrival to the next, and where a hold cuts in, its neighbours are looked at as well.
// All that were tried go into `starts`.
UtcTime best_arrival(const AnsweredFrom& from, const Frame& frame, const std::vector<Hold>& barred, uptake::Ensemble& ensemble,
                     std::vector<Start>& starts) {
  const std::vector<UtcTime> arrivals = from.crew.arrivals(frame.date);
  std::optional<Plan> best;
  std::size_t best_index = 0;
  const auto try_arrival = [&](std::size_t index) {
    const UtcTime arrive = arrivals[index];
    const double counts_h = from.crew.longest_that_counts_h(frame.date, arrive) + 1.0 / uptake::steps_per_hour;  // to the end of a step
    const auto finishes = ensemble.finish(from.draws_h(from.crew.opens(arrive)), std::min(counts_h, horizon_h), from.settings.search_draws);
    Plan plan = from.crew.weigh(frame.date, arrive, barred, finishes);
    starts.push_back(start_of(from, frame.date, plan, finishes));
    if (best && !better(plan, *best, from.settings.practice.decision)) return;
    best = std::move(plan);
    best_index = index;
  };
  for (std::size_t index = 0; index < arrivals.size(); index += 2) try_arrival(index);
  const std::size_t coarse = best_index;
  if (coarse > 0) try_arrival(coarse - 1);
  if (coarse + 1 < arrivals.size()) try_arrival(coarse + 1);
  std::ranges::sort(starts, {}, &Start::arrive);
  return best->arrive;
}

void add_hours(const CrewDay& crew, const uptake::Finishes& finishes, DayAnswer& answer) {
  answer.uptake_h = quantiles(finishes.dose_h);
  std::vector<double> on_site(finishes.flush_h);
  for (std::size_t i = 0; i < on_site.size(); ++i) on_site[i] += crew.before_h(i) + crew.after_h(i);
  answer.on_site_h = quantiles(on_site);
  if (answer.on_site_h.p50) answer.off_site_p50 = later_by(answer.arrive, *answer.on_site_h.p50);
  if (answer.on_site_h.p90) answer.off_site_p90 = later_by(answer.arrive, *answer.on_site_h.p90);
}

void add_intake(const AnsweredFrom& from, const std::vector<std::vector<double>>& volumes_l, std::size_t draws, DayAnswer& answer) {
  const Rates found = rates(volumes_l);
  answer.rate_l_h = found.median_l_h;
  answer.peak_rate_l_h = found.peak_l_h;
  const UtcTime stop = std::min(answer.valves_shut_by, next_hold(answer.arrive, answer.holds));
  std::vector<double> available_h;
  for (std::size_t draw = 0; draw < draws; ++draw) available_h.push_back(hours_between(answer.arrive, stop) - from.crew.before_h(draw));
  answer.sure_tanks = sure_tanks(from.tree, from.settings.practice.set_up, volumes_l, available_h);
}

// For an arrival at `booked`, without one for the best.
DayAnswer answer_day(const AnsweredFrom& from, const Frame& frame, uptake::Ensemble& ensemble, std::optional<UtcTime> booked = {}) {
  const Practice& practice = from.settings.practice;
  const Outlook& outlook = from.outlook;

  DayAnswer answer;
  answer.date = frame.date;
  answer.off_site_by = from.crew.off_site_by(frame.date);
  answer.valves_shut_by = from.crew.shut_by(frame.date);
  const UtcTime earliest = std::min(from.crew.arrivals(frame.date).front(), booked.value_or(UtcTime::max()));
  answer.holds = holds(outlook, practice.holds, from.crown.wet_share, earliest, answer.off_site_by);
  answer.watches = watches(outlook, earliest, answer.off_site_by);
  answer.arrive = booked ? *booked : best_arrival(from, frame, answer.holds, ensemble, answer.starts);
  answer.valves_open = from.crew.opens(answer.arrive);

  const auto [finishes, volumes_l] = ensemble.follow(from.draws_h(answer.valves_open), horizon_h);
  const Plan plan = from.crew.weigh(frame.date, answer.arrive, answer.holds, finishes);
  answer.chance_to_finish = plan.chance_dose;
  answer.chance_all_clear = plan.chance_clear;
  answer.mc_error = standard_error(plan.dose_by_draw);
  answer.expected_cost_h = plan.cost_h;
  answer.cost_by_draw_h = plan.cost_by_draw_h;
  answer.clear_by_draw = plan.clear_by_draw;
  const Start start = start_of(from, frame.date, plan, finishes);
  if (booked)
    answer.starts = {start};
  else
    *std::ranges::find(answer.starts, answer.arrive, &Start::arrive) = start;
  answer.verdict = verdict(practice.decision, plan.chance_clear, from.forecast_old);
  add_hours(from.crew, finishes, answer);
  add_intake(from, volumes_l, ensemble.draws(), answer);
  answer.conditions = conditions(outlook, frame, from.crown, practice.holds, *outlook.hour_at(answer.valves_open));
  answer.why = why(from, frame, ensemble.block(0), answer.valves_open);
  answer.rain_known = rain_known(outlook, frame);
  const auto last = outlook.hour_at(answer.off_site_by).value_or(outlook.hours());
  const auto first = *outlook.hour_at(answer.arrive);
  answer.departures = from.error.departures(first, std::max(last, first + 1), ensemble.draws());
  return answer;
}

}  // namespace

std::optional<DayAnswer> answer_booked(const TreeCase& tree, const Outlook& outlook, uptake::Ensemble& ensemble, const Settings& settings,
                                       UtcTime now, units::LocalDay date, std::optional<UtcTime> arrive) {
  const UtcTime midnight = tree.zone.start_of(date), end = tree.zone.end_of(date);
  if (outlook.known == 0 || end > outlook.begins(outlook.known)) return std::nullopt;
  const auto first = midnight < outlook.begins(0) ? std::optional<std::size_t>{0} : outlook.hour_at(midnight);
  const double good_h = good_day_hours(tree, settings, std::chrono::floor<std::chrono::hours>(midnight));
  const CrewDay crew{tree, settings.practice, ensemble, good_h};
  const UtcTime opens = crew.opens(arrive.value_or(crew.arrivals(date).front()));
  if (!first || later_by(outlook.begins(*first), least_rest_h) > opens || (arrive && !outlook.hour_at(*arrive))) return std::nullopt;
  const Frame frame{date, *first, std::min(*first + 48, outlook.hours()), outlook.hour_at(end).value_or(outlook.hours())};
  const CrownWater crown = crown_water(tree, outlook.courses.front());
  const ForecastError error{outlook, settings.practice.weather_error, ensemble.blocks(), settings.seed};
  const bool forecast_old = hours_between(outlook.issued, now) >= settings.practice.decision.oldest_forecast_h;
  const AnsweredFrom from{tree, outlook, crown, error, crew, settings, frame.first, forecast_old};
  ensemble.set_hours(error.scenarios(frame.first, frame.until), crown.before_mm[frame.first]);
  return answer_day(from, frame, ensemble, arrive);
}

std::vector<DayAnswer> answer_days(const TreeCase& tree, const Outlook& outlook, uptake::Ensemble& ensemble, const Settings& settings,
                                   UtcTime now) {
  const auto all = frames(tree.zone, outlook, now);
  std::vector<DayAnswer> answers;
  if (all.empty()) return answers;
  const double good_h = good_day_hours(tree, settings, outlook.begins(all.front().first));
  const CrownWater crown = crown_water(tree, outlook.courses.front());
  const ForecastError error{outlook, settings.practice.weather_error, ensemble.blocks(), settings.seed};
  const CrewDay crew{tree, settings.practice, ensemble, good_h};
  const bool forecast_old = hours_between(outlook.issued, now) >= settings.practice.decision.oldest_forecast_h;
  const AnsweredFrom from{tree, outlook, crown, error, crew, settings, all.front().first, forecast_old};
  ensemble.set_hours(error.scenarios(from.first, all.back().until), crown.before_mm[from.first]);
  RerunDay again{from, good_h, ensemble};
  for (const Frame& frame : all) {
    answers.push_back(answer_day(from, frame, ensemble));
    answers.back().advice = again.advice(frame, answers.back(), now);
  }
  return answers;
}

}  // namespace days
