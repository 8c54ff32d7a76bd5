// Text as Unicode characters and back.
#pragma once
#include <string>
#include <string_view>

namespace text {

inline constexpr char32_t replacement = 0xFFFD;  // stands where bytes are no UTF-8

// Every byte that is not part of valid UTF-8 gives one `replacement`.
[[nodiscard]] std::u32string code_points(std::string_view utf8);

// Requires Unicode characters: no surrogates, none above U+10FFFF.
void append(std::string& utf8, char32_t character);
[[nodiscard]] std::string to_utf8(std::u32string_view characters);

}  // namespace text
