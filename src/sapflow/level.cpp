#include "sapflow/level.h"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace sapflow {
namespace {

constexpr int fewest_hours = 6;
constexpr double least_flow = 0.05;  // sum of squares of a day's flow below which its level cannot be told
constexpr double weak_flow = 0.5;    // at which a day's reading has one and a half times the variance of a strong day's

}  // namespace

double Level::season_variance() const { return noise_.tree_season_ln_sd * noise_.tree_season_ln_sd / noise_.trees_together; }

double Level::alike(long a, long b) const {
  const double apart = static_cast<double>(std::labs(a - b));
  return season_variance() + noise_.drift_ln_sd * noise_.drift_ln_sd * std::exp(-apart / noise_.drift_days);
}

Level::Season Level::solved(std::vector<Day> days) const {
  const auto n = static_cast<Eigen::Index>(days.size());
  Eigen::MatrixXd covariance(n, n);
  Eigen::VectorXd readings(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Day& one = days[static_cast<std::size_t>(i)];
    readings(i) = one.ln_level;
    for (Eigen::Index j = 0; j < n; ++j) covariance(i, j) = alike(one.day, days[static_cast<std::size_t>(j)].day);
    covariance(i, i) += one.variance;
  }
  const Eigen::MatrixXd inverse = covariance.llt().solve(Eigen::MatrixXd::Identity(n, n));
  const Eigen::VectorXd weights = inverse * readings;
  return {std::move(days), {weights.data(), weights.data() + n}, {inverse.data(), inverse.data() + n * n}};
}

Level::Level(const Noise& noise, const Hours& hours, std::span<const Sample> samples, const std::vector<double>& flow) : noise_(noise) {
  std::vector<Day> days;
  for (auto from = samples.begin(); from != samples.end();) {
    const long day = hours.solar_day[from->hour];
    double product = 0.0, square = 0.0;
    int count = 0;
    for (; from != samples.end() && hours.solar_day[from->hour] == day; ++from, ++count) {
      product += from->flow * flow[from->hour];
      square += flow[from->hour] * flow[from->hour];
    }
    if (count < fewest_hours || square < least_flow) continue;
    const double variance = noise_.day_ln_sd * noise_.day_ln_sd * (1.0 + weak_flow / square);
    days.push_back({day, std::log(std::max(product / square, 0.1)), variance});
  }
  for (auto from = days.begin(); from != days.end();) {
    auto until = from + 1;
    while (until != days.end() && static_cast<double>(until->day - (until - 1)->day) <= noise_.season_gap_days) ++until;
    seasons_.push_back(solved({from, until}));
    from = until;
  }
}

LnLevel Level::of(long solar_day) const {
  const double unmeasured = season_variance() + noise_.drift_ln_sd * noise_.drift_ln_sd;
  for (const Season& season : seasons_) {
    const double before = static_cast<double>(season.days.front().day - solar_day);
    const double after = static_cast<double>(solar_day - season.days.back().day);
    if (std::max(before, after) > noise_.season_gap_days) continue;
    const std::size_t n = season.days.size();
    std::vector<double> shared(n);
    for (std::size_t i = 0; i < n; ++i) shared[i] = alike(solar_day, season.days[i].day);
    LnLevel level{0.0, unmeasured};
    for (std::size_t i = 0; i < n; ++i) {
      level.mean += shared[i] * season.weights[i];
      for (std::size_t j = 0; j < n; ++j) level.variance -= shared[i] * season.inverse[i * n + j] * shared[j];
    }
    return level;
  }
  const bool later = !seasons_.empty() && solar_day > seasons_.back().days.back().day;
  return {later ? -noise_.season_fall : 0.0, unmeasured};
}

}  // namespace sapflow
