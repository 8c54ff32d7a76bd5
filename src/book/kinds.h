// The kinds of book/kind.h, by what they are about.
#pragma once
#include <vector>

#include "book/kind.h"

namespace book {

[[nodiscard]] std::vector<Kind> kinds_of_people();  // the owner's rules and fields, depots, crews and their things, clients
[[nodiscard]] std::vector<Kind> kinds_of_places();  // sites, trees, diameters
[[nodiscard]] std::vector<Kind> kinds_of_work();    // bookings, readings, messages, application records

}  // namespace book
