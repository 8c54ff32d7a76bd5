// One booking as a stop of its crew's order: place, water, hours and holds, and what the law lacks.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/crew_orders.h"
#include "book/lawful.h"

namespace app {

// "Oak Court elm", or "north elm (Courthouse)" where the tree's name does not begin as the site's does.
[[nodiscard]] std::string stop_name(const BookedStop& stop);

// What a crew must not do while a rule is not met: "No consent: open no valves". Requires a finding that is missing.
[[nodiscard]] std::string law_line(const book::Finding& finding);

// Not where the crew comes so late that they must be shut before it is ready to open them.
[[nodiscard]] bool can_open_valves(const days::DayAnswer& answer);

// `tree`: its answer for the booked day; nullptr where there is none. Without an answer, where a rule is missing, or where valves cannot be
// opened in time it is a stop for preparation only.
[[nodiscard]] text::Stop stop_of_booking(const Common& common, const BookedStop& stop, const std::optional<book::Record>& client,
                                         const std::vector<book::Finding>& law, const TreeReport* tree);

}  // namespace app
