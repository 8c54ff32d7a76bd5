#include "days/resolvable.h"

#include <algorithm>
#include <cmath>

namespace days {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

// How much of a fit's spread is signal: its shrinkage by the adjusted share of explained variance.
double signal(double total, double left, double rows, double columns) {
  if (total <= 0.0 || left >= total || rows - columns <= 1.0) return 0.0;
  const double explained = 1.0 - left / total;
  return std::sqrt(std::max(0.0, 1.0 - (1.0 - explained) * (rows - 1.0) / (rows - columns - 1.0)) / explained);
}

}  // namespace

Resolved resolved(const WeatherError& error, double now_d, double then_d) {
  const auto share = [&](const ByLead& table) {
    const double left = at_lead(table, then_d) / std::max(at_lead(table, now_d), 1e-12);
    return std::clamp(1.0 - left * left, 0.0, 1.0);
  };
  const double temp = share(error.temperature_sd_c);
  return {temp, temp, share(error.cloud_sd_pct), share(error.rain_unresolved)};
}

Resolvable by_weather(const VectorXd& by_draw, const std::vector<DayAnswer>& answers, std::span<const std::size_t> of_days) {
  const Index n = by_draw.size();
  Resolvable result;
  result.mean = by_draw.mean();
  const VectorXd y = by_draw.array() - result.mean;
  for (const std::size_t of : of_days)
    for (Index variable = 0; variable < departure_variables; ++variable) {
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
  for (Index c = 0; c < x.cols(); ++c) x.col(c) = result.columns[static_cast<std::size_t>(c)].effect.normalized();
  const VectorXd slopes = x.colPivHouseholderQr().solve(y);
  const double shrink = signal(y.squaredNorm(), (y - x * slopes).squaredNorm(), static_cast<double>(n), static_cast<double>(x.cols()));
  for (Index c = 0; c < x.cols(); ++c) result.columns[static_cast<std::size_t>(c)].effect = shrink * slopes[c] * x.col(c);
  return result;
}

Resolvable by_member(const VectorXd& by_draw, std::size_t members) {
  VectorXd sum = VectorXd::Zero(static_cast<Index>(members)), squares = sum, count = sum;
  for (Index draw = 0; draw < by_draw.size(); ++draw) {
    const auto member = static_cast<Index>(static_cast<std::size_t>(draw) / units::Lanes::count % members);
    sum[member] += by_draw[draw];
    squares[member] += by_draw[draw] * by_draw[draw];
    count[member] += 1.0;
  }
  VectorXd effect = sum.cwiseQuotient(count);
  const double scatter = (squares.cwiseQuotient(count) - effect.cwiseAbs2()).sum();
  const double mean = effect.mean();
  effect.array() -= mean;
  const double spread = effect.squaredNorm(), noise = scatter / std::max(count.minCoeff() - 1.0, 1.0);
  effect *= spread > noise ? std::sqrt(1.0 - noise / spread) : 0.0;
  return {mean, {{0, 0, 0.5, effect}}};
}

VectorXd once_resolved(const Resolvable& figure, std::span<const Resolved> shares, Index rows) {
  VectorXd expected = VectorXd::Constant(rows, figure.mean);
  for (const auto& c : figure.columns) expected += std::pow(shares[c.day][static_cast<std::size_t>(c.variable)], c.power) * c.effect;
  return expected;
}

}  // namespace days
