// A whole shared fairly among its parts: each part gets what it adds to a set of others, averaged over all orders in which the parts may
// join. Source: Shapley (1953), A value for n-person games, Contributions to the Theory of Games II, 307-317.
#pragma once
#include <span>
#include <vector>

namespace days {

// `worth` of every set of n parts, 2^n values: bit i of an index says that part i is in the set. n from 0 to 20. Gives n shares; they sum
// to worth of all less worth of none, parts that add alike get alike, and a part that adds nothing to any set gets 0.
[[nodiscard]] std::vector<double> shapley(std::span<const double> worth);

}  // namespace days
