// How far a message has been narrowed to fit a phone, step by step.
#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

#include "text/crew_order.h"
#include "text/pieces.h"

namespace text {

// The last resort, for names: longest first, in characters, cut at a word's end; then the stop's code.
inline constexpr std::array<std::size_t, 4> name_lengths{40, 28, 20, 12};

// How stops are laid out: by the owner's template, or where that has no room in rows of figures, the last of them without words.
enum class Layout {
  by_template,
  rows,      // "1 7:30am Oak Court GO 66gal+5flush valves 9am-4pm off 5pm"
  bare_rows  // "1 7:30am Oak Court GO 66+5gal 9am-4pm off 5pm"
};

struct Narrowing {
  std::size_t dropped = 0;  // pieces left out, from the front of drop_order
  Layout layout = Layout::by_template;
  bool codes_for_foreign = false;                                      // names in letters of other scripts give way to codes
  std::size_t longest_name = std::numeric_limits<std::size_t>::max();  // characters; 0: codes for all

  [[nodiscard]] bool has(Piece piece) const {
    return std::find(drop_order.begin(), drop_order.begin() + static_cast<std::ptrdiff_t>(dropped), piece) ==
           drop_order.begin() + static_cast<std::ptrdiff_t>(dropped);
  }
};

// The name of stop number `number` (from 1) as it is said under `narrowing`: whole, at a word's end within its length, or where not even
// its first word fits its code; without a code "stop 2". Never empty.
[[nodiscard]] std::string name_said(const Stop& stop, std::size_t number, const Narrowing& narrowing);

// The same for a crew's name, whose last form is "Crew".
[[nodiscard]] std::string crew_said(const CrewOrder& order, const Narrowing& narrowing);

}  // namespace text
