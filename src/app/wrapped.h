// Prose in lines that fit a terminal or a sheet of paper.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace app {

// No line of any face's text is longer.
inline constexpr std::size_t widest_line = 100;

// Words of `text` in lines of at most `width` characters, at least one line; a word longer than that stands alone, uncut.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, std::size_t width);

}  // namespace app
