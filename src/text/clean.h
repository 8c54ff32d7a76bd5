// What people typed (names, gates, notes), made fit for one line of a message.
#pragma once
#include <string>
#include <string_view>

namespace text {

// One line of readable characters: line ends, tabs, control characters and blanks of any kind become one blank; what steers the direction
// of writing, joins or is not seen at all (bidi controls, zero width, variation selectors, tags) goes; broken UTF-8 becomes '?'. Never
// longer than `longest` characters, cut at a word's end if there is one; a record's limit, far above any name.
[[nodiscard]] std::string clean(std::string_view utf8, std::size_t longest = 1000);

// `clean`, then in the seven-bit alphabet if that can be: accents and signs by their plain form; what is no letter and has none (pictures,
// arrows) is left out as long as a letter or digit remains. A text with letters of another script comes back clean and otherwise as it was,
// and makes the whole message UCS-2.
[[nodiscard]] std::string for_phone(std::string_view utf8);

}  // namespace text
