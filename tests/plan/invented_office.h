// Invented offices with hours, small enough to try every plan.
#pragma once
#include <cstdint>

#include "plan/schedule.h"

namespace invented {

struct OfficeSize {
  int tasks = 5, teams = 2, days = 2;
};

// Promises, locks, bars, water to be hauled, trees in sight of each other, overtime; hours are short.
[[nodiscard]] plan::Office office(std::uint64_t seed, OfficeSize size = {});

// The best objective of any plan, by trying them all.
[[nodiscard]] double best_objective(const plan::Office& office);

}  // namespace invented
