// A crew's order as JSON and back: kept beside the message that says it, so that the morning and a correction know what was said.
#pragma once
#include <string>

#include "text/crew_order.h"
#include "units/fault.h"

namespace app {

// SI; wall clock of the crew's zone as YYYY-MM-DDTHH:MM.
[[nodiscard]] std::string order_json(const text::CrewOrder& order);

// Fault, as `where`: no JSON, or a value that is missing or does not fit.
[[nodiscard]] units::Result<text::CrewOrder> order_from_json(const std::string& where, const std::string& json);

}  // namespace app
