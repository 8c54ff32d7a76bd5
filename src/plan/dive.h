// From the linear programme to a plan: crews' days that it takes almost in full are fixed, the rest is solved again with new columns for
// what is left, until every crew's day is settled.
#pragma once
#include <functional>
#include <optional>

#include "plan/master.h"
#include "plan/roster.h"

namespace plan {

// `batch`: so large a share of the crews' days is fixed between two solves even where the programme is undecided; finer is slower and
// better. None when `stop` ended it. The master must have been solved; it is released afterwards.
[[nodiscard]] std::optional<Roster> dive(const Ground& ground, Pool& pool, Master& master, double batch, const std::function<bool()>& stop);

}  // namespace plan
