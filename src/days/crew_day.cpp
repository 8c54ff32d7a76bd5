#include "days/crew_day.h"

#include <algorithm>
#include <cmath>

#include "days/clock.h"
#include "days/pace.h"
#include "days/quantiles.h"

namespace days {

using units::LocalDay;
using units::UtcTime;

CrewDay::CrewDay(const TreeCase& tree, const Practice& practice, const uptake::Ensemble& ensemble, double good_h)
    : tree_(tree), practice_(practice), job_(job_time(tree, practice.phases)) {
  comeback_h_ = practice.decision.return_cost_h + job_.before().value + good_h + job_.after().value;
  for (std::size_t draw = 0; draw < ensemble.draws(); ++draw)
    pace_.push_back(
        std::exp(practice.phases.ln_sd * ensemble.block(draw / units::Lanes::count).pace_z[static_cast<int>(draw % units::Lanes::count)]));
}

std::vector<UtcTime> CrewDay::arrivals(LocalDay date) const {
  const WorkDay& day = practice_.day;
  std::vector<UtcTime> all;
  for (int i = 0; day.earliest_start_h + i * day.start_step_h <= day.latest_start_h + 1e-9; ++i)
    all.push_back(at_wall_clock(tree_.zone, date, day.earliest_start_h + i * day.start_step_h));
  return all;
}

UtcTime CrewDay::opens(UtcTime arrive) const { return later_by(arrive, job_.before().value); }

UtcTime CrewDay::off_site_by(LocalDay date) const { return days::off_site_by(tree_, practice_, date); }

UtcTime CrewDay::shut_by(LocalDay date) const { return valves_shut_by(tree_, practice_, date); }

double CrewDay::longest_that_counts_h(LocalDay date, UtcTime arrive) const {
  constexpr double fastest_sd = 7.0;
  const double before_h = job_.before().value * std::exp(-fastest_sd * practice_.phases.ln_sd);
  return std::max(0.0, hours_between(arrive, shut_by(date)) - before_h);
}

Plan CrewDay::weigh(LocalDay date, UtcTime arrive, const std::vector<Hold>& barred, const uptake::Finishes& finishes) const {
  Plan plan{arrive, opens(arrive), {}, {}, {}, 0.0, 0.0, 0.0, 0.0};
  const double shut_h = hours_between(arrive, shut_by(date));
  const double stop_h = std::min(shut_h, hours_between(arrive, next_hold(arrive, barred)));
  const PacedWork before{job_.before().value, practice_.phases.ln_sd}, after{job_.after().value, before.ln_sd};
  for (std::size_t i = 0; i < finishes.dose_h.size(); ++i) {
    const double clear = chance_within(before, stop_h - finishes.flush_h[i]);
    const double drinking = std::min(finishes.flush_h[i], std::max(shut_h, 0.0));
    plan.dose_by_draw.push_back(chance_within(before, shut_h - finishes.dose_h[i]));
    plan.clear_by_draw.push_back(clear);
    const double spent = drinking + expected_up_to(before, std::max(shut_h, 0.0) - drinking) + expected(after);
    plan.cost_by_draw_h.push_back(spent + (1.0 - clear) * comeback_h_);
    plan.spent_h += spent / static_cast<double>(finishes.dose_h.size());
  }
  plan.chance_dose = mean(plan.dose_by_draw);
  plan.chance_clear = mean(plan.clear_by_draw);
  plan.cost_h = mean(plan.cost_by_draw_h);
  return plan;
}

UtcTime off_site_by(const TreeCase& tree, const Practice& practice, LocalDay date) {
  return tree.leave_by ? tree.zone.to_utc(units::LocalTime{date} + *tree.leave_by)
                       : at_wall_clock(tree.zone, date, practice.day.off_site_h);
}

UtcTime valves_shut_by(const TreeCase& tree, const Practice& practice, LocalDay date) {
  return later_by(off_site_by(tree, practice, date), -job_time(tree, practice.phases).after().value);
}

UtcTime next_hold(UtcTime from, const std::vector<Hold>& barred) {
  UtcTime first = from + std::chrono::hours{24 * 365};
  for (const Hold& hold : barred)
    if (hold.until > from) first = std::min(first, hold.from);
  return first;
}

bool better(const Plan& a, const Plan& b, const Decision& decision) {
  constexpr double noise = 0.01;
  const double sure_a = std::min(a.chance_clear, decision.go_chance), sure_b = std::min(b.chance_clear, decision.go_chance);
  if (std::abs(sure_a - sure_b) > noise) return sure_a > sure_b;
  if (sure_a < noise) return a.chance_dose > b.chance_dose + noise;
  return a.cost_h < b.cost_h - 1e-9;
}

}  // namespace days
