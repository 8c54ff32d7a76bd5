// How much work a search may do. The search never asks for the time itself: whoever calls it brings a gauge.
#pragma once
#include <cstdint>
#include <functional>

namespace plan {

struct Effort {
  std::uint64_t seed = 1;
  // Moves of the local search at most, 0: as many as the gauge allows. With a limit and no gauge the answer depends on nothing else.
  std::uint64_t iterations = 0;
  // The share of the allowance that is spent, 0 at the start; at 1 or more the search ends with the best it has. May be empty.
  // Called often, and only from the thread that asked.
  std::function<double()> spent;
};

}  // namespace plan
