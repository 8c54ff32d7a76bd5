// What has changed for a crew's day against what was agreed, told by the moves that were accepted lately.
#pragma once
#include <string>
#include <vector>

#include "app/request.h"
#include "store/book.h"

namespace app {

// "Elm St moved to Thu Jul 16", "Elm St goes to Crew A", "Elm St is new: was Wed Jul 15", "Elm St now 9:00 am, was 7:00 am"; moves of the
// days for which nobody is moved twice (models/plan.json).
[[nodiscard]] std::vector<std::string> changes_for_crew(store::Book& book, const Common& common, const std::string& crew,
                                                        units::LocalDay day);

}  // namespace app
