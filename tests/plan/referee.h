// The best that any plan is worth, by a road that shares nothing with the search but the structs: every set of jobs that a crew can do on
// a day is written down, and one integer programme over all of them goes to CBC as a finished product.
#pragma once
#include <cstddef>

#include "plan/instance.h"

namespace referee {

struct Optimum {
  double objective = 0.0;
  std::size_t sets = 0;  // columns of the programme
  bool proven = false;   // CBC says that nothing is better
};

// For some fifty jobs; the sets of larger books are too many.
[[nodiscard]] Optimum optimum(const plan::Instance& instance);

}  // namespace referee
