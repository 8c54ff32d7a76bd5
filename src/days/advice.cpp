#include "days/advice.h"

#include <algorithm>
#include <cmath>

#include "days/clock.h"

namespace days {
namespace {

using units::UtcTime;

class Adviser {
 public:
  Adviser(const DayAsAnswered& day, const Practice& practice, const Rerun& rerun)
      : day_(day), practice_(practice), rerun_(rerun), as_is_(rerun({})) {}

  void dig() {
    Trial dug = rerun_({.arrive = later_by(as_is_.arrive, day_.dig_h), .flare_dug = true});
    if (as_it_stands() != Verdict::go) {
      const Trial earlier = rerun_({.flare_dug = true});
      if (earlier.chance > dug.chance) dug = earlier;
    }
    add(AdviceCode::dig_before, day_.dig_h + as_is_.flush_h - dug.flush_h, dug, as_is_);
  }

  void keep_sprinklers_off() {
    if (!day_.leaves_dry || as_it_stands() == Verdict::no_go) return;
    const Trial wetted = rerun_({.wetted_share = practice_.advice.wetted_share});
    add(AdviceCode::sprinklers_off, wetted.dose_h - as_is_.dose_h, as_is_, wetted);
  }

  void soak() {
    if (!day_.soaking || day_.soil_costs_h < practice_.advice.worth_h) return;
    const Trial soaked = rerun_({.soak_rew = day_.soaking->rew});
    if (add(AdviceCode::soak, as_is_.dose_h - soaked.dose_h, soaked, as_is_)) found_.back().soak_on = day_.soaking->on;
  }

  void start_later() {
    if (as_is_.arrive <= day_.earliest_arrival || as_it_stands() == Verdict::no_go) return;
    const Trial early = rerun_({.arrive = day_.earliest_arrival});
    add(AdviceCode::start_hour, early.dose_h - as_is_.dose_h, as_is_, early);
  }

  // The nearest arrival outside the window that is as good as the farthest one, if that one is better than the day.
  void widen_window() {
    if (as_it_stands() == Verdict::go) return;
    if (as_is_.arrive == day_.earliest_arrival) widen_window(-practice_.day.start_step_h);
    if (as_is_.arrive == day_.latest_arrival) widen_window(practice_.day.start_step_h);
  }

  [[nodiscard]] std::vector<Advice> found() && {
    std::stable_sort(found_.begin(), found_.end(),
                     [](const Advice& a, const Advice& b) { return a.betters != b.betters ? a.betters : a.hours > b.hours; });
    return std::move(found_);
  }

 private:
  [[nodiscard]] Verdict as_it_stands() const { return verdict_of(day_.chance); }
  [[nodiscard]] Verdict verdict_of(double chance) const { return verdict(practice_.decision, chance, day_.forecast_old); }
  [[nodiscard]] double chance_of(const Trial& trial) const { return std::clamp(day_.chance + trial.chance - as_is_.chance, 0.0, 1.0); }

  bool add(AdviceCode code, double hours, const Trial& followed, const Trial& otherwise) {
    Advice advice;
    advice.code = code;
    advice.hours = hours;
    advice.chance = chance_of(followed);
    advice.chance_otherwise = chance_of(otherwise);
    advice.verdict = verdict_of(advice.chance);
    advice.verdict_otherwise = verdict_of(advice.chance_otherwise);
    advice.arrive = followed.arrive;
    advice.valves_open = followed.valves_open;
    advice.arrive_otherwise = otherwise.arrive;
    advice.valves_open_otherwise = otherwise.valves_open;
    const bool surer = advice.chance - advice.chance_otherwise >= practice_.advice.worth_chance;
    advice.betters = surer && advice.verdict < advice.verdict_otherwise;
    const bool gains = advice.betters || (hours >= practice_.advice.worth_h && advice.verdict <= advice.verdict_otherwise);
    const bool worth_going = advice.verdict != Verdict::no_go || (surer && code == AdviceCode::soak);
    if (gains && worth_going) found_.push_back(advice);
    return gains && worth_going;
  }

  void widen_window(double step_h) {
    const int steps = static_cast<int>(practice_.advice.window_reach_h / std::abs(step_h) + 1e-9);
    const auto arriving = [&](int n) { return rerun_({.arrive = later_by(as_is_.arrive, n * step_h)}); };
    if (steps < 1) return;
    const Trial farthest = arriving(steps);
    const Verdict best = verdict_of(chance_of(farthest));
    if (best >= as_it_stands()) return;
    Trial nearest = farthest;
    for (int n = 1; n < steps; ++n)
      if (const Trial trial = arriving(n); verdict_of(chance_of(trial)) <= best) {
        nearest = trial;
        break;
      }
    add(AdviceCode::wider_window, as_is_.dose_h - nearest.dose_h, nearest, as_is_);
  }

  const DayAsAnswered& day_;
  const Practice& practice_;
  const Rerun& rerun_;
  Trial as_is_;
  std::vector<Advice> found_;
};

}  // namespace

double soak_rew(const soil::RewCurve& curve, units::Metres root_zone, double water_mm, std::span<const uptake::HourWeather> since) {
  const auto wettest = std::ranges::max_element(since, {}, &uptake::HourWeather::rew);
  return std::clamp(1.0 - wettest->rew, 0.0, water_mm / (1000.0 * root_zone.value * curve.available()));
}

std::optional<Soaking> soaking(const TreeCase& tree, const Outlook& outlook, const AdviceLimits& limits, units::LocalDay date, UtcTime open,
                               UtcTime now) {
  const units::LocalDay on = date - std::chrono::days{std::lround(limits.soak_days_before)};
  const auto first = outlook.hour_at(tree.zone.start_of(on)), last = outlook.hour_at(open);
  if (on < tree.zone.day_of(now) || !first || !last) return std::nullopt;
  const std::span hours{outlook.courses.front()};
  return Soaking{on, soak_rew(tree.curve, tree.root_zone, limits.soak_mm, hours.subspan(*first, *last - *first + 1))};
}

std::vector<Advice> advise(const DayAsAnswered& day, const Practice& practice, const Rerun& rerun) {
  Adviser adviser{day, practice, rerun};
  adviser.dig();
  adviser.keep_sprinklers_off();
  adviser.soak();
  adviser.start_later();
  adviser.widen_window();
  return std::move(adviser).found();
}

}  // namespace days
