// The hours a crew is on site beside the uptake itself: dig, lay out, drill and seat, leak check, mix; tear down afterwards.
#pragma once
#include "days/practice.h"
#include "days/tree_case.h"
#include "units/quantity.h"

namespace days {

struct JobTime {
  units::Hours dig, layout, drill, leak_check, mix, tear_down;

  // Before valves open on mix, and after they are shut.
  [[nodiscard]] units::Hours before() const { return dig + layout + drill + leak_check + mix; }
  [[nodiscard]] units::Hours after() const { return tear_down; }
};

// Only the first tank is mixed before valves open; the others are mixed while the tree drinks.
[[nodiscard]] JobTime job_time(const TreeCase& tree, const Phases& phases);

// Tanks the dose fills, at least 1.
[[nodiscard]] int tank_count(const TreeCase& tree, const SetUp& set_up);

}  // namespace days
