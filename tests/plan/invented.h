// Invented booking problems for the tests, small enough to try every plan.
#pragma once
#include <cstdint>

#include "plan/instance.h"

namespace invented {

struct Size {
  int jobs = 5;
  int crews = 2;
  int days = 2;
};

// A sound problem; about a third of the jobs are promised, some locked, some need a rig, and hours are short.
[[nodiscard]] plan::Instance instance(std::uint64_t seed, Size size = {});

// The best objective of any plan, by trying them all.
[[nodiscard]] double best_objective(const plan::Instance& instance);

}  // namespace invented
