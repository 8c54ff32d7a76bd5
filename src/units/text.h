// Foreign text made fit for a message, and numbers read without asking the locale.
#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace units {

[[nodiscard]] std::string_view trimmed(std::string_view text);

// Length of the valid UTF-8 sequence that starts at `at` (1..4); 0 where there is none.
[[nodiscard]] std::size_t sequence_length(std::string_view text, std::size_t at);

// Valid UTF-8 as RFC 3629 has it: no overlong forms, no surrogates.
[[nodiscard]] bool is_utf8(std::string_view text);

// `text` for one line of a message: control characters and broken UTF-8 as '?', at most `longest` bytes and then "...".
[[nodiscard]] std::string for_message(std::string_view text, std::size_t longest = 60);

// The same text but for the case of ASCII letters.
[[nodiscard]] bool same_letters(std::string_view a, std::string_view b);

// A decimal number that fills all of `text` ("12", "-0.5", "1e3"); no blanks, no comma, no hexadecimal, no infinity.
[[nodiscard]] std::optional<double> parse_number(std::string_view text);

}  // namespace units
