// What stays where it is booked whatever the plan: jobs that the dispatcher has locked, and jobs that are settled for now.
#pragma once
#include "app/outcome.h"
#include "app/plan_book.h"

namespace app {

// Locks every settled task whose own day can hold it beside those that are locked there already. One that cannot be kept stays free: then
// no lawful plan keeps it.
void hold_settled(PlanBook& book);

// Whether the dispatcher's locked jobs can be kept at all; a line for each crew's day that cannot, with what would relax it.
[[nodiscard]] bool locks_can_be_kept(const PlanBook& book, Outcome& outcome);

}  // namespace app
