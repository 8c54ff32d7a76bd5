#include "days/rerun_day.h"

#include <algorithm>

#include "days/clock.h"
#include "days/quantiles.h"
#include "days/rewatered.h"

namespace days {
namespace {

using units::UtcTime;

uptake::Ensemble first_draws(const TreeCase& tree, const uptake::Ensemble& all, std::size_t count) {
  const std::size_t draws = std::min(count, all.draws());
  std::vector<uptake::Draw<units::Lanes>> blocks;
  for (std::size_t b = 0; b * units::Lanes::count < draws; ++b) blocks.push_back(all.block(b));
  return {tree.subject, tree.curve, std::move(blocks), draws};
}

Practice flare_dug(Practice practice) {
  practice.phases.dig_h = practice.phases.dig_h_per_m = 0.0;
  return practice;
}

// Each draw's at most the horizon.
double mean_h(std::vector<double> finish_h) {
  for (double& h : finish_h) h = std::min(h, horizon_h);
  return mean(finish_h);
}

}  // namespace

RerunDay::RerunDay(const AnsweredFrom& from, double good_h, uptake::Ensemble& ensemble)
    : from_(from),
      dug_practice_(flare_dug(from.settings.practice)),
      dug_(from.tree, dug_practice_, ensemble, good_h),
      ensemble_(ensemble),
      rewatered_(first_draws(from.tree, ensemble, from.settings.search_draws)) {}

std::vector<Advice> RerunDay::advice(const Frame& frame, const DayAnswer& answer, UtcTime now) {
  as_is_.clear();
  const Practice& practice = from_.settings.practice;
  const auto arrivals = from_.crew.arrivals(frame.date);
  const std::size_t open_hour = *from_.outlook.hour_at(answer.valves_open);
  const auto dry = [&](std::size_t hour) { return from_.crown.wet_share[hour] < practice.holds.wet_crown_share; };
  const auto soil = std::ranges::find(answer.why.by_factor, Factor::soil_water, &Reason::factor);
  const DayAsAnswered day{.chance = answer.chance_all_clear,
                          .dig_h = from_.crew.job().dig.value,
                          .soil_costs_h = soil->hours,
                          .forecast_old = from_.forecast_old,
                          .leaves_dry = dry(open_hour - 1) && dry(open_hour),
                          .soaking = soaking(from_.tree, from_.outlook, practice.advice, frame.date, answer.valves_open, now),
                          .earliest_arrival = arrivals.front(),
                          .latest_arrival = arrivals.back()};
  return advise(day, practice, [&](const Change& change) { return run(frame, answer, arrivals.front(), change); });
}

Trial RerunDay::run(const Frame& frame, const DayAnswer& answer, UtcTime earliest, const Change& change) {
  const CrewDay& crew = change.flare_dug ? dug_ : from_.crew;
  const UtcTime arrive = change.arrive.value_or(answer.arrive), open = crew.opens(arrive);
  const uptake::Finishes finishes =
      change.wetted_share > 0.0 || change.soak_rew > 0.0 ? under_other_water(frame, open, change) : as_forecast(open);
  const auto barred = arrive < earliest
                          ? holds(from_.outlook, from_.settings.practice.holds, from_.crown.wet_share, arrive, answer.off_site_by)
                          : answer.holds;
  const Plan plan = crew.weigh(frame.date, arrive, barred, finishes);
  return {arrive, open, plan.chance_clear, mean_h(finishes.dose_h), mean_h(finishes.flush_h)};
}

const uptake::Finishes& RerunDay::as_forecast(UtcTime open) {
  const auto known = as_is_.find(open);
  if (known != as_is_.end()) return known->second;
  return as_is_.emplace(open, ensemble_.finish(from_.draws_h(open), horizon_h, from_.settings.search_draws)).first->second;
}

uptake::Finishes RerunDay::under_other_water(const Frame& frame, UtcTime open, const Change& change) {
  // A day ahead is enough for the undrilled tree to forget that it began at rest, and each draw's leaves that they began alike.
  constexpr std::size_t ahead_h = 24;
  const std::size_t first = std::max(frame.first, from_.first + ahead_h) - ahead_h;
  auto courses = from_.error.scenarios(first, frame.until);
  courses.resize(std::min(courses.size(), rewatered_.blocks()));
  rewatered_.set_hours(rewatered(std::move(courses), from_.tree.subject, change, *from_.outlook.hour_at(open) - first),
                       from_.crown.before_mm[first]);
  return rewatered_.finish(hours_between(from_.outlook.begins(first), open), horizon_h);
}

}  // namespace days
