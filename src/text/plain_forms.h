// The accepted plain form of a character that the seven-bit alphabet lacks.
#pragma once
#include <optional>
#include <string_view>

namespace text {

// "e" for ê, "'" for a curly quote, "-" for a dash. Empty where there is none, as for letters of
// other scripts. Accents: the base letter of Unicode's canonical decomposition, Latin-1, Latin Extended-A, -B and Additional.
[[nodiscard]] std::optional<std::u32string_view> plain_form(char32_t character);

// What a letter and a combining mark after it make together where the alphabet has that letter: é of e and U+0301.
[[nodiscard]] std::optional<char32_t> composed(char32_t letter, char32_t mark);

}  // namespace text
