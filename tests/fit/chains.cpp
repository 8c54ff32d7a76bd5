#include "fit/chains.h"

#include <cmath>

#include "units/random.h"

namespace fit {
namespace {

// A normal distribution that proposals come from.
class Like {
 public:
  Like(Eigen::VectorXd mean, const Eigen::MatrixXd& covariance) : mean_(std::move(mean)), spread_(covariance) {}

  [[nodiscard]] Eigen::MatrixXd off_mean(const Eigen::MatrixXd& points) const { return points.colwise() - mean_; }
  [[nodiscard]] Eigen::MatrixXd fresh(const Eigen::MatrixXd& standard) const { return spread_.matrixL() * standard; }
  [[nodiscard]] const Eigen::VectorXd& mean() const { return mean_; }
  // Half the squared distance from the mean in its own measure, a value a column.
  [[nodiscard]] Eigen::VectorXd half_distance(const Eigen::MatrixXd& points) const {
    return 0.5 * spread_.matrixL().solve(off_mean(points)).colwise().squaredNorm().transpose();
  }

 private:
  Eigen::VectorXd mean_;
  Eigen::LLT<Eigen::MatrixXd> spread_;
};

// Somewhat wider than it is known to be: what a distribution misses of the tails, its chains visit seldom and leave late.
Eigen::MatrixXd widened(const Eigen::MatrixXd& covariance) {
  return 1.1 * covariance + 0.1 * Eigen::MatrixXd::Identity(covariance.rows(), covariance.cols());
}

Like like_draws(const Eigen::MatrixXd& points) {
  const Eigen::VectorXd mean = points.rowwise().mean();
  const Eigen::MatrixXd off = points.colwise() - mean;
  return {mean, widened(off * off.transpose() / static_cast<double>(points.cols() - 1))};
}

}  // namespace

Draws draw_chains(const Residuals& residuals, const Optimum& optimum, const ChainPlan& plan) {
  const Eigen::Index n = optimum.at.size();
  std::uint64_t stream = 0;
  const auto standard = [&](Eigen::Index rows) {
    Eigen::MatrixXd z(rows, plan.chains);
    for (Eigen::Index j = 0; j < z.cols(); ++j)
      for (Eigen::Index i = 0; i < rows; ++i)
        z(i, j) = units::normal_quantile(units::hashed_uniform(plan.seed, stream, static_cast<std::uint64_t>(j * rows + i)));
    ++stream;
    return z;
  };
  Like like{optimum.at, widened(optimum.covariance)};
  Eigen::MatrixXd now = like.fresh(standard(n)).colwise() + like.mean();
  Eigen::VectorXd here = objective(residuals, now);
  Draws draws;
  draws.chains = plan.chains;
  const double kept = std::sqrt(1.0 - plan.step * plan.step);
  for (const int steps : plan.rounds) {
    draws.points.resize(n, steps * plan.chains);
    draws.accepted = 0.0;
    Eigen::VectorXd over = here - like.half_distance(now);  // what the normal distribution does not account for
    for (int step = 0; step < steps; ++step) {
      const Eigen::MatrixXd proposed = (kept * like.off_mean(now) + plan.step * like.fresh(standard(n))).colwise() + like.mean();
      const Eigen::VectorXd there = objective(residuals, proposed);
      const Eigen::VectorXd over_there = there - like.half_distance(proposed);
      for (Eigen::Index chain = 0; chain < plan.chains; ++chain) {
        const double luck = units::hashed_uniform(plan.seed, stream, static_cast<std::uint64_t>(chain));
        if (!(std::log(luck) < over[chain] - over_there[chain])) continue;
        now.col(chain) = proposed.col(chain);
        here[chain] = there[chain];
        over[chain] = over_there[chain];
        draws.accepted += 1.0;
      }
      ++stream;
      draws.points.middleCols(step * plan.chains, plan.chains) = now;
    }
    draws.accepted /= static_cast<double>(steps) * static_cast<double>(plan.chains);
    like = like_draws(draws.points);
  }
  return draws;
}

double disagreement(const Draws& draws, Eigen::Index coordinate) {
  const Eigen::Index steps = draws.points.cols() / draws.chains;
  const double n = static_cast<double>(steps), m = static_cast<double>(draws.chains);
  Eigen::VectorXd means(draws.chains), variances(draws.chains);
  for (Eigen::Index chain = 0; chain < draws.chains; ++chain) {
    Eigen::VectorXd one(steps);
    for (Eigen::Index step = 0; step < steps; ++step) one[step] = draws.points(coordinate, step * draws.chains + chain);
    means[chain] = one.mean();
    variances[chain] = (one.array() - means[chain]).square().sum() / (n - 1.0);
  }
  const double within = variances.mean(), between = (means.array() - means.mean()).square().sum() / (m - 1.0);
  return std::sqrt((n - 1.0) / n + between / within);
}

}  // namespace fit
