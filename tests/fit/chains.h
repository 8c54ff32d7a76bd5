// Draws from prior times facts, by chains of the preconditioned Crank-Nicolson kind (Cotter, Roberts, Stuart & White 2013, Statistical
// Science 28:424) around a normal distribution that is like it.
#pragma once
#include <cstdint>
#include <vector>

#include "fit/most_probable.h"

namespace fit {

struct ChainPlan {
  Eigen::Index chains = 16;
  // After each round but the last, mean and covariance of its draws become the normal distribution of the next. Only the last round's draws
  // are kept, so that what is kept comes from one unchanging rule.
  std::vector<int> rounds{100, 200, 800};
  double step = 0.5;  // share of a fresh draw in a proposal, 0 to 1 by its square
  std::uint64_t seed = 1;
};

struct Draws {
  Eigen::MatrixXd points;  // a column a draw: all chains at one step, then at the next
  Eigen::Index chains = 0;
  double accepted = 0.0;  // share of proposals
};

// Begins from draws of the normal distribution that `optimum` is the middle of.
[[nodiscard]] Draws draw_chains(const Residuals& residuals, const Optimum& optimum, const ChainPlan& plan);

// How well the chains agree on a coordinate: the ratio R-hat of Gelman & Rubin 1992 (Statistical Science 7:457), 1 where they do.
[[nodiscard]] double disagreement(const Draws& draws, Eigen::Index coordinate);

}  // namespace fit
