// Invented crew days: a good one to change by hand, and random ones.
#pragma once
#include <cstdint>
#include <string>

#include "text/crew_order.h"

namespace orders {

// Wall-clock time of Tue Jul 7 2026, the day of all of them.
[[nodiscard]] units::LocalTime at(int hour, int minute = 0);

// One elm on drawn water, every field filled.
[[nodiscard]] text::Stop oak_court();
// Crew B with one stop, or with a second on hauled water.
[[nodiscard]] text::CrewOrder one_stop();
[[nodiscard]] text::CrewOrder two_stops();

// 1 to 4 stops, some for preparation only, 0 to 3 holds, safety lines and long names; weather too old in a tenth. Depends on `number`
// alone.
[[nodiscard]] text::CrewOrder random_order(std::uint64_t number);

// A name that somebody might type to break a message: pictures, 200 letters, line ends, headers, placeholders, bidi marks, broken bytes.
[[nodiscard]] std::string nasty_text(std::uint64_t number);

}  // namespace orders
