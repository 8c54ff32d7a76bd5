// The most probable deviates, prior times facts: the least of (z.z + r(z).r(z))/2 over z, where every deviate's prior is standard normal
// and r are residuals of what is known besides.
#pragma once
#include <Eigen/Dense>
#include <functional>

namespace fit {

// Residuals of many points at once: a column each, into a column each. The same column gives the same bits whatever stands beside it.
using Residuals = std::function<Eigen::MatrixXd(const Eigen::MatrixXd& points)>;

struct Optimum {
  Eigen::VectorXd at;
  Eigen::MatrixXd covariance;  // Laplace's: of the normal distribution that is as steep as prior times facts at `at`
  double objective = 0.0;
  int rounds = 0;
  double last_move = 0.0;  // largest, over the deviates
};

// (z.z + r.r)/2, a value a column; infinite where a residual is.
[[nodiscard]] Eigen::VectorXd objective(const Residuals& residuals, const Eigen::MatrixXd& points);

// Gauss and Newton's method with central differences of 0.01; of each step eight lengths, halved from 1, are tried and the best taken. Ends
// when none is better or no deviate moves by 1e-4, after 60 rounds at most.
[[nodiscard]] Optimum most_probable(const Residuals& residuals, const Eigen::VectorXd& start);

}  // namespace fit
