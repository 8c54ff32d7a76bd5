// The words of each piece of an order, on a phone's line.
#pragma once
#include <string>
#include <vector>

#include "text/crew_order.h"
#include "text/narrowing.h"
#include "text/template.h"

namespace text {

// Whether a valve is opened at this stop on this order: not for preparation, not where it is NO GO, and never on weather beyond the owner's
// limit.
[[nodiscard]] bool is_treatment(const CrewOrder& order, const Stop& stop);

// One piece of one stop ("valves open 9am", "14 ports", "Gate 4412"); empty where there is nothing to say, or it has been left out.
// What people typed comes cleaned. Letters of other scripts in a piece that may be left out do not make a message UCS-2: unless a name does
// so already, such a piece is empty.
[[nodiscard]] std::string stop_words(const CrewOrder& order, std::size_t stop, Piece piece, const Narrowing& narrowing);

// A whole stop by its template, or in a row of figures.
[[nodiscard]] std::string stop_line(const CrewOrder& order, std::size_t stop, const Templates& templates, const Narrowing& narrowing);

// The order's own pieces. {stops}, {holds} and {safety} are lines; holds and safety lines that several stops share are said once, and
// name the stops where these are not all of the day ("HOLD at 1,3 ...").
[[nodiscard]] std::string order_words(const CrewOrder& order, Piece piece, const Templates& templates, const Narrowing& narrowing);

// Holds and safety lines as order_words joins them, one each. Holds say what to do about them at some length, in short or not at all.
enum class Advised { fully, shortly, not_at_all };
[[nodiscard]] std::vector<std::string> hold_lines(const CrewOrder& order, Advised advised);
[[nodiscard]] std::vector<std::string> safety_lines(const CrewOrder& order);

[[nodiscard]] std::string lines_joined(const std::vector<std::string>& lines);

}  // namespace text
