// Numbers given as options, held to what can be.
#pragma once
#include <optional>
#include <string>

#include "units/fault.h"

namespace app {

// Passes where nothing was given. Fault: "--lat: '91': expected a latitude from -90 to 90"; also for a NaN.
[[nodiscard]] units::Result<void> within(const std::string& option, std::optional<double> value, double lowest, double highest,
                                         const std::string& what);

}  // namespace app
