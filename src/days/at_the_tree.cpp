#include "days/at_the_tree.h"

#include <algorithm>
#include <cmath>

#include "days/clock.h"

namespace days {
namespace {

using uptake::Reading;

// The earlier of the two readings between which a rate is seen; the opening where none is far enough back.
std::optional<std::size_t> rate_since(const std::vector<Reading>& readings, double rate_over_h) {
  for (std::size_t i = readings.size(); i-- > 0;)
    if (readings.back().hours - readings[i].hours >= rate_over_h) return i;
  return std::nullopt;
}

void add_rates(const JobSoFar& job, double rate_over_h, const uptake::Followed& drawn, TreeNow& now) {
  if (job.readings.empty()) return;
  const std::size_t last = job.readings.size() - 1;
  const auto& volumes_l = drawn.volumes_l[last];
  now.normal_l = quantiles(volumes_l);
  const auto since = rate_since(job.readings, rate_over_h);
  const Reading from = since ? job.readings[*since] : Reading{};
  const double over_h = job.readings[last].hours - from.hours;
  if (over_h <= 0.0) return;
  now.rate_l_h = (job.readings[last].litres - from.litres) / over_h;
  std::vector<double> rates(volumes_l);
  for (std::size_t draw = 0; draw < rates.size(); ++draw)
    rates[draw] = (volumes_l[draw] - (since ? drawn.volumes_l[*since][draw] : 0.0)) / over_h;
  now.normal_l_h = quantiles(rates);
}

// As the last reading leaves it: not in before it, or in by then.
std::vector<double> held_to_reading(std::vector<double> dose_h, const JobSoFar& job, double dose_l) {
  if (job.readings.empty()) return dose_h;
  const Reading& last = job.readings.back();
  for (double& h : dose_h) h = last.litres < dose_l ? std::max(h, last.hours) : std::min(h, last.hours);
  return dose_h;
}

void add_chance(const std::vector<double>& dose_h, const std::vector<double>& share, double shut_h, TreeNow& now) {
  for (std::size_t draw = 0; draw < dose_h.size(); ++draw) now.chance_to_finish += dose_h[draw] <= shut_h ? share[draw] : 0.0;
  double squares = 0.0;  // of the self-normalised estimate, by the delta method
  for (std::size_t draw = 0; draw < dose_h.size(); ++draw) {
    const double off = share[draw] * ((dose_h[draw] <= shut_h ? 1.0 : 0.0) - now.chance_to_finish);
    squares += off * off;
  }
  now.mc_error = std::sqrt(squares);
}

void add_tank(const SetUp& set_up, double least_l, double dose_l, double sure_in_all_l, TreeNow& now) {
  const double next_l = std::min(set_up.tank_l, dose_l - now.mixed_l);
  const double room_l = sure_in_all_l - now.mixed_l;
  constexpr double rounding_l = 1e-9;
  if (next_l <= rounding_l) {
    now.tank = TankAdvice::nothing_left;
  } else if (room_l >= next_l - rounding_l) {
    now.tank = TankAdvice::mix;
    now.mix_l = next_l;
  } else if (room_l >= least_l) {
    now.tank = TankAdvice::mix_part;
    now.mix_l = room_l;
  }
}

}  // namespace

std::vector<double> JobSoFar::times_h() const {
  std::vector<double> times;
  for (const Reading& reading : readings) times.push_back(reading.hours);
  times.push_back(std::clamp(stop_h, 0.0, horizon_h));
  return times;
}

TreeNow tree_now(const TreeCase& tree, const Practice& practice, const JobSoFar& job, const uptake::Followed& drawn) {
  const double dose_l = tree.subject.dose.value;
  const std::size_t draws = drawn.finishes.dose_h.size();
  const uptake::ReadingError& error = practice.readings.error;
  const uptake::Weights weights = uptake::weigh(job.readings, drawn.volumes_l, draws, error);

  TreeNow now;
  now.effective_draws = weights.effective;
  now.trust = weights.power;
  now.odd = uptake::odd_reading(job.readings, drawn.volumes_l, draws, error);
  now.before_h = quantiles(drawn.finishes.dose_h);
  now.chance_before = static_cast<double>(std::ranges::count_if(drawn.finishes.dose_h, [&](double h) { return h <= job.shut_h; })) /
                      static_cast<double>(draws);
  const std::vector<double> dose_h = held_to_reading(drawn.finishes.dose_h, job, dose_l);
  now.finish_h = quantiles(dose_h, weights.share);
  add_chance(dose_h, weights.share, job.shut_h, now);
  add_rates(job, practice.readings.rate_over_h, drawn, now);

  const double taken_l = job.readings.empty() ? 0.0 : job.readings.back().litres;
  const double tank_l = practice.set_up.tank_l;
  now.mixed_l = job.mixed_l.value_or(std::min(dose_l, tank_l * std::max(1.0, std::ceil(taken_l / tank_l - 1e-9))));
  std::vector<double> by_stop_l = drawn.volumes_l.back();
  for (double& l : by_stop_l) l = std::clamp(l, std::min(taken_l, dose_l), dose_l);
  const double sure_in_all_l = *quantile(by_stop_l, weights.share, 1.0 - practice.set_up.tank_sure);
  now.sure_l = sure_in_all_l - std::min(taken_l, dose_l);
  add_tank(practice.set_up, error.mark_l, dose_l, sure_in_all_l, now);
  return now;
}

}  // namespace days
