#include "fit/most_probable.h"

namespace fit {
namespace {

constexpr double difference = 0.01;
constexpr int most_rounds = 60, lengths = 8;
constexpr double still = 1e-4;

// The residuals at `at` and their slopes.
std::pair<Eigen::VectorXd, Eigen::MatrixXd> slopes(const Residuals& residuals, const Eigen::VectorXd& at) {
  const Eigen::Index n = at.size();
  Eigen::MatrixXd points = at.replicate(1, 2 * n + 1);
  for (Eigen::Index i = 0; i < n; ++i) {
    points(i, 2 * i + 1) += difference;
    points(i, 2 * i + 2) -= difference;
  }
  const Eigen::MatrixXd r = residuals(points);
  Eigen::MatrixXd jacobian(r.rows(), n);
  for (Eigen::Index i = 0; i < n; ++i) jacobian.col(i) = (r.col(2 * i + 1) - r.col(2 * i + 2)) / (2.0 * difference);
  return {r.col(0), jacobian};
}

}  // namespace

Eigen::VectorXd objective(const Residuals& residuals, const Eigen::MatrixXd& points) {
  const Eigen::MatrixXd r = residuals(points);
  return 0.5 * (points.colwise().squaredNorm() + r.colwise().squaredNorm()).transpose();
}

Optimum most_probable(const Residuals& residuals, const Eigen::VectorXd& start) {
  const Eigen::Index n = start.size();
  Optimum best;
  best.at = start;
  for (best.rounds = 0; best.rounds < most_rounds; ++best.rounds) {
    const auto [r, jacobian] = slopes(residuals, best.at);
    best.objective = 0.5 * (best.at.squaredNorm() + r.squaredNorm());
    const Eigen::LLT<Eigen::MatrixXd> curvature(Eigen::MatrixXd::Identity(n, n) + jacobian.transpose() * jacobian);
    best.covariance = curvature.solve(Eigen::MatrixXd::Identity(n, n));
    const Eigen::VectorXd step = curvature.solve(best.at + jacobian.transpose() * r);
    Eigen::MatrixXd tried(n, lengths);
    double length = 1.0;
    for (Eigen::Index i = 0; i < lengths; ++i, length *= 0.5) tried.col(i) = best.at - length * step;
    Eigen::Index which = 0;
    const double least = objective(residuals, tried).minCoeff(&which);
    if (!(least < best.objective)) break;
    best.last_move = (tried.col(which) - best.at).cwiseAbs().maxCoeff();
    best.at = tried.col(which);
    best.objective = least;
    if (best.last_move < still) break;
  }
  return best;
}

}  // namespace fit
