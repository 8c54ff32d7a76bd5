// Cells of the CSV that commands print.
#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace app::csv {

// The shortest digits that read back as the same number; nothing where it is unknown.
[[nodiscard]] std::string number(std::optional<double> value);
// In quotes where a comma, a quote or a line break needs them.
[[nodiscard]] std::string text(std::string_view content);

// The same, safe in a spreadsheet: a text that one would take for a formula gets an apostrophe in front; one that already looks so gets one
// more, so that `from_sheet` gives back exactly what was there. (OWASP, CSV injection: = + - @ tab and carriage return.)
[[nodiscard]] std::string for_sheet(std::string_view content);
[[nodiscard]] std::string from_sheet(std::string cell);

}  // namespace app::csv
