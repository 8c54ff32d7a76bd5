// What a crew would do differently by one order than by another, said stop by stop.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "text/crew_order.h"
#include "text/narrowing.h"
#include "text/template.h"

namespace text {

// The stop of `order` that is the same as `stop`: by code, without one by name.
[[nodiscard]] std::optional<std::size_t> same_stop(const CrewOrder& order, const Stop& stop);

// Lines such as "1) Oak Court: NO GO (was GO), valves open 9:30am", "New: 2) ...", "Not today: Elm St.", "New HOLD ...", "No more HOLD
// ..."; empty where nothing changed. What is left out under `narrowing` is not said, but stops, holds and safety lines always are.
// After what to do has been said (`after_action`), verdicts, odds, hours, stops that are gone, safety lines of stops that were there before
// and what to do in a hold are not said again.
[[nodiscard]] std::vector<std::string> change_lines(const CrewOrder& sent, const CrewOrder& today, const Templates& templates,
                                                    const Narrowing& narrowing, bool after_action);

}  // namespace text
