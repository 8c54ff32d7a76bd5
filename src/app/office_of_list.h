// The office's own weather for trees of a list.
#pragma once
#include <filesystem>
#include <optional>
#include <vector>

#include "app/office_sites.h"
#include "units/site.h"

namespace app {

// Freshened and read for the sites `wanted` of the list. Empty where settings, places or keys are refused, with the line in `outcome`; what
// failed on the way is told there too.
[[nodiscard]] std::optional<OfficeSites> office_of_list(const Common& common, const OfficeRequest& request,
                                                        const std::filesystem::path& trees, const std::vector<units::Site>& wanted,
                                                        Outcome& outcome);

}  // namespace app
