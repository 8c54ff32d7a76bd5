// Whether a proposed move may still be made: the book may have changed since it was proposed.
#pragma once
#include <optional>
#include <vector>

#include "app/request.h"
#include "store/book.h"
#include "units/fault.h"

namespace app {

// What bars `move` now: its crew does not work that day, the site is closed, somebody else was booked into that crew's day, a rule that the
// job met is no longer met. `with`: the moves that are accepted with it. Whether the job itself was changed, its version tells.
[[nodiscard]] std::optional<units::Fault> no_longer(store::Book& book, const Common& common, const book::Record& move,
                                                    const std::vector<book::Record>& with);

}  // namespace app
