#include "app/csv.h"

#include <fmt/format.h>

namespace app::csv {

std::string number(std::optional<double> value) { return value ? fmt::format("{}", *value) : std::string{}; }

std::string text(std::string_view content) {
  if (content.find_first_of(",\"\r\n") == std::string_view::npos) return std::string{content};
  std::string quoted = "\"";
  for (const char c : content) quoted += c == '"' ? std::string{"\"\""} : std::string{c};
  return quoted + '"';
}

}  // namespace app::csv
