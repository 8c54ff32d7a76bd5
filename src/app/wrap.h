// Text kept within a width.
#pragma once
#include <string>
#include <string_view>

namespace app {

inline constexpr std::size_t text_columns = 100;

// Breaks `text` between words so that no line passes `columns`; every line begins with `indent` and ends in a newline. A word longer
// than a line stands alone on its own.
[[nodiscard]] std::string wrap(std::string_view text, std::string_view indent, std::size_t columns = text_columns);

}  // namespace app
