// The one tree of a list that a command is asked about.
#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "app/outcome.h"
#include "app/request.h"
#include "app/tree_case.h"

namespace app {

// Empty where the file, the tree's line or its id is refused; `outcome` then says why. A second line of the same id is refused there too,
// and the first answered. Faults of other trees are not its business.
[[nodiscard]] std::optional<TreeInFull> one_tree(const Common& common, const std::filesystem::path& trees, const std::string& id,
                                                 Outcome& outcome);

}  // namespace app
