#include "days/wait.h"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <numeric>

#include "days/clock.h"
#include "days/resolvable.h"

namespace days {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using units::UtcTime;

UtcTime middle(const DayAnswer& day) { return day.arrive + (day.off_site_by - day.arrive) / 2; }

// A day's cost less the cheapest day's, as far as weather has to do with it.
Resolvable difference(const std::vector<DayAnswer>& answers, std::size_t day, std::size_t best, std::size_t members) {
  const auto n = static_cast<Index>(answers[best].cost_by_draw_h.size());
  VectorXd y(n);
  for (Index i = 0; i < n; ++i) {
    const auto draw = static_cast<std::size_t>(i);
    y[i] = answers[day].cost_by_draw_h[draw] - answers[best].cost_by_draw_h[draw];
  }
  if (!answers[best].departures.empty()) return by_weather(y, answers, std::array{day, best});
  Resolvable by = by_member(y, members);
  by.columns.front().day = day;
  return by;
}

// What an evening's news would make of the days.
struct News {
  double gain_h = 0.0;
  std::vector<double> cheapest;  // by day: how often it then is the cheapest
};

// Every day from `first` on is open in the evening `decide_by`; `differences` are to the day that is cheapest now.
News news(const std::vector<DayAnswer>& answers, const std::vector<Resolvable>& differences, const WeatherError& error,
          const Decider& decider, UtcTime fresh, std::size_t first, Index rows) {
  std::vector<Resolved> shares;
  for (const DayAnswer& day : answers)
    shares.push_back(resolved(error, days_between(decider.issued, middle(day)), days_between(fresh, middle(day))));
  News result{0.0, std::vector<double>(answers.size(), 0.0)};
  MatrixXd expected(rows, static_cast<Index>(answers.size()));
  for (std::size_t day = first; day < answers.size(); ++day) {
    expected.col(static_cast<Index>(day)) = once_resolved(differences[day], shares, rows);
  }
  for (Index row = 0; row < rows; ++row) {
    Index cheapest = 0;
    const double least = expected.row(row).tail(static_cast<Index>(answers.size() - first)).minCoeff(&cheapest);
    result.gain_h -= least / static_cast<double>(rows);
    result.cheapest[first + static_cast<std::size_t>(cheapest)] += 1.0 / static_cast<double>(rows);
  }
  return result;
}

std::vector<units::LocalDay> contenders(const std::vector<DayAnswer>& answers, const std::vector<double>& cheapest) {
  std::vector<std::size_t> order(answers.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return cheapest[a] > cheapest[b]; });
  const std::size_t count = order.size() > 2 && cheapest[order[2]] >= 0.1 ? 3 : 2;
  std::vector<units::LocalDay> dates;
  for (std::size_t i = 0; i < std::min(count, order.size()); ++i) dates.push_back(answers[order[i]].date);
  std::sort(dates.begin(), dates.end());
  return dates;
}

}  // namespace

std::optional<Wait> best_wait(const std::vector<DayAnswer>& answers, const Practice& practice, const Decider& decider) {
  if (answers.size() < 2) return std::nullopt;
  const auto best = static_cast<std::size_t>(
      std::min_element(answers.begin(), answers.end(),
                       [](const DayAnswer& a, const DayAnswer& b) { return a.expected_cost_h < b.expected_cost_h; }) -
      answers.begin());
  const bool ensemble = answers[best].departures.empty();
  std::vector<Resolvable> differences;
  for (std::size_t day = 0; day < answers.size(); ++day)
    differences.push_back(day == best ? Resolvable{} : difference(answers, day, best, decider.members));
  const auto rows = static_cast<Index>(ensemble ? decider.members : answers[best].cost_by_draw_h.size());

  std::optional<Wait> found;
  for (std::size_t first = 0; first < answers.size(); ++first) {
    const UtcTime decide_by = at_wall_clock(decider.zone, answers[first].date - std::chrono::days{1}, practice.decision.decide_h);
    // Where that is no newer than the forecast in hand nothing is resolved, and nothing gained.
    const UtcTime fresh = later_by(decide_by, -practice.decision.fresh_forecast_h);
    if (decide_by <= decider.now) continue;
    const News heard = news(answers, differences, practice.weather_error, decider, fresh, first, rows);
    if (heard.gain_h > 1e-9 && (!found || heard.gain_h > found->gain_h))
      found = Wait{decide_by, heard.gain_h, contenders(answers, heard.cheapest)};
  }
  return found;
}

std::optional<Wait> worth_waiting(const std::vector<DayAnswer>& answers, const Practice& practice, const Decider& decider) {
  auto wait = best_wait(answers, practice, decider);
  if (wait && wait->gain_h < practice.decision.worth_waiting_h) wait.reset();
  return wait;
}

}  // namespace days
