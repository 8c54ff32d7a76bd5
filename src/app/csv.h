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

}  // namespace app::csv
