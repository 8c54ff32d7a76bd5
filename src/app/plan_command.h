// `plan propose`, `plan rework`, `plan what-if`, `plan show`.
#pragma once
#include "app/outcome.h"
#include "app/plan_book.h"

namespace app {

// Proposes; what is proposed is kept in the book as moves to be accepted or refused, unless only a look was asked for. An earlier proposal
// that waits for an answer is closed.
[[nodiscard]] Outcome plan_command(const Common& common, const PlanRequest& request);

// What would be different if: the plan with `request.ifs` beside the plan without them. Keeps nothing.
[[nodiscard]] Outcome what_if_command(const Common& common, const PlanRequest& request);

struct PlanShowRequest {
  PlanRequest plan;
  bool by_crew = false;
};
// The bookings as they stand: trees by days, with hours, odds and crew; or each crew's days.
[[nodiscard]] Outcome plan_show_command(const Common& common, const PlanShowRequest& request);

}  // namespace app
