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

// The same with what a real office adds: work that costs hours, crews' days barred, promises of unequal weight, and a rule of a crew's day:
// jobs that cannot be worked together, and a cost of each that shares one.
[[nodiscard]] plan::Instance ruled_instance(std::uint64_t seed, Size size = {});

// The best objective of any plan, by trying them all.
[[nodiscard]] double best_objective(const plan::Instance& instance);

}  // namespace invented
