// The office's own weather for trees of a list.
#pragma once
#include <optional>
#include <vector>

#include "app/office_sites.h"
#include "app/tree_list.h"
#include "units/site.h"

namespace app {

// Freshened and read for the sites `wanted` of the list. Empty where settings, places or keys are refused, with the line in `outcome`; what
// failed on the way is told there too.
[[nodiscard]] std::optional<OfficeSites> office_of_list(const Common& common, const OfficeRequest& request, const TreeList& list,
                                                        const std::vector<units::Site>& wanted, Outcome& outcome);

}  // namespace app
