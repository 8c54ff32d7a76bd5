#include "days/wait.h"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "days/clock.h"

namespace days {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using units::UtcTime;

constexpr Index variables = 4;  // of a Departure

UtcTime middle(const DayAnswer& day) { return day.arrive + (day.off_site_by - day.arrive) / 2; }

// Share of the variance of today's error in each variable that a forecast of lead `then_d` resolves against one of `now_d`.
std::array<double, variables> resolved(const WeatherError& error, double now_d, double then_d) {
  const auto share = [&](const ByLead& table) {
    const double left = at_lead(table, then_d) / std::max(at_lead(table, now_d), 1e-12);
    return std::clamp(1.0 - left * left, 0.0, 1.0);
  };
  const double temp = share(error.temperature_sd_c);
  return {temp, temp, share(error.cloud_sd_pct), share(error.rain_unresolved)};
}

// A day's cost less the cheapest day's, by what the weather of each has to do with it: mean + effects * 1, one row a draw (or a
// member); a column's effect grows with the share that is resolved as share^power.
struct Difference {
  double mean_h = 0.0;
  struct Column {
    std::size_t day;
    Index variable;
    double power;
    VectorXd effect_h;
  };
  std::vector<Column> columns;
};

// How much of a fit's spread is signal: its shrinkage by the adjusted share of explained variance.
double signal(double total, double left, double rows, double columns) {
  if (total <= 0.0 || left >= total || rows - columns <= 1.0) return 0.0;
  const double explained = 1.0 - left / total;
  return std::sqrt(std::max(0.0, 1.0 - (1.0 - explained) * (rows - 1.0) / (rows - columns - 1.0)) / explained);
}

Difference regressed(const std::vector<DayAnswer>& answers, std::size_t day, std::size_t best) {
  const auto n = static_cast<Index>(answers[best].cost_by_draw_h.size());
  VectorXd y(n);
  for (Index i = 0; i < n; ++i) {
    const auto draw = static_cast<std::size_t>(i);
    y[i] = answers[day].cost_by_draw_h[draw] - answers[best].cost_by_draw_h[draw];
  }
  Difference result;
  result.mean_h = y.mean();
  y.array() -= result.mean_h;
  for (const std::size_t of : {day, best})
    for (Index variable = 0; variable < variables; ++variable) {
      VectorXd x(n);
      for (Index i = 0; i < n; ++i) {
        const Departure& d = answers[of].departures[static_cast<std::size_t>(i)];
        x[i] = std::array{d.temp_c, d.dew_point_c, d.cloud, d.rain_share}[static_cast<std::size_t>(variable)];
      }
      x.array() -= x.mean();
      VectorXd square = x.array().square();
      square.array() -= square.mean();
      // A part of a normal error carries over to the error itself by its standard deviation and to its square by its variance.
      if (x.norm() > 1e-9) result.columns.push_back({of, variable, 0.5, x});
      if (square.norm() > 1e-9) result.columns.push_back({of, variable, 1.0, square});
    }
  if (result.columns.empty()) return result;
  MatrixXd x(n, static_cast<Index>(result.columns.size()));
  for (Index c = 0; c < x.cols(); ++c) x.col(c) = result.columns[static_cast<std::size_t>(c)].effect_h.normalized();
  const VectorXd slopes = x.colPivHouseholderQr().solve(y);
  const double shrink = signal(y.squaredNorm(), (y - x * slopes).squaredNorm(), static_cast<double>(n), static_cast<double>(x.cols()));
  for (Index c = 0; c < x.cols(); ++c) result.columns[static_cast<std::size_t>(c)].effect_h = shrink * slopes[c] * x.col(c);
  return result;
}

// Of an ensemble: the means of its members, less the scatter of the draws within one.
Difference by_member(const std::vector<DayAnswer>& answers, std::size_t day, std::size_t best, std::size_t members) {
  const auto& cost = answers[day].cost_by_draw_h;
  const auto& least = answers[best].cost_by_draw_h;
  VectorXd sum = VectorXd::Zero(static_cast<Index>(members)), squares = sum, count = sum;
  for (std::size_t draw = 0; draw < cost.size(); ++draw) {
    const auto member = static_cast<Index>(draw / units::Lanes::count % members);
    const double difference = cost[draw] - least[draw];
    sum[member] += difference;
    squares[member] += difference * difference;
    count[member] += 1.0;
  }
  VectorXd effect = sum.cwiseQuotient(count);
  const double scatter = (squares.cwiseQuotient(count) - effect.cwiseAbs2()).sum();
  const double mean = effect.mean();
  effect.array() -= mean;
  const double spread = effect.squaredNorm(), noise = scatter / std::max(count.minCoeff() - 1.0, 1.0);
  effect *= spread > noise ? std::sqrt(1.0 - noise / spread) : 0.0;
  return {mean, {{day, 0, 0.5, effect}}};
}

// What an evening's news would make of the days.
struct News {
  double gain_h = 0.0;
  std::vector<double> cheapest;  // by day: how often it then is the cheapest
};

// Every day from `first` on is open in the evening `decide_by`; `differences` are to the day that is cheapest now.
News news(const std::vector<DayAnswer>& answers, const std::vector<Difference>& differences, const WeatherError& error,
          const Decider& decider, UtcTime fresh, std::size_t first, Index rows) {
  std::vector<std::array<double, variables>> shares;
  for (const DayAnswer& day : answers)
    shares.push_back(resolved(error, days_between(decider.issued, middle(day)), days_between(fresh, middle(day))));
  News result{0.0, std::vector<double>(answers.size(), 0.0)};
  MatrixXd expected(rows, static_cast<Index>(answers.size()));
  for (std::size_t day = first; day < answers.size(); ++day) {
    VectorXd column = VectorXd::Constant(rows, differences[day].mean_h);
    for (const auto& c : differences[day].columns)
      column += std::pow(shares[c.day][static_cast<std::size_t>(c.variable)], c.power) * c.effect_h;
    expected.col(static_cast<Index>(day)) = column;
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
  std::vector<Difference> differences;
  for (std::size_t day = 0; day < answers.size(); ++day)
    differences.push_back(day == best ? Difference{}
                          : ensemble  ? by_member(answers, day, best, decider.members)
                                      : regressed(answers, day, best));
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
