#include "app/csv.h"

#include <fmt/format.h>

#include <algorithm>

namespace app::csv {
namespace {

// Apostrophes, then what a spreadsheet takes for the start of a formula.
bool looks_like_formula(std::string_view text, std::size_t least_apostrophes) {
  const std::size_t first = std::min(text.find_first_not_of('\''), text.size());
  return first >= least_apostrophes && first < text.size() && std::string_view{"=+-@\t\r"}.find(text[first]) != std::string_view::npos;
}

}  // namespace

std::string number(std::optional<double> value) { return value ? fmt::format("{}", *value) : std::string{}; }

std::string text(std::string_view content) {
  if (content.find_first_of(",\"\r\n") == std::string_view::npos) return std::string{content};
  std::string quoted = "\"";
  for (const char c : content) quoted += c == '"' ? std::string{"\"\""} : std::string{c};
  return quoted + '"';
}

std::string for_sheet(std::string_view content) {
  return text(looks_like_formula(content, 0) ? "'" + std::string{content} : std::string{content});
}

std::string from_sheet(std::string cell) {
  if (looks_like_formula(cell, 1)) cell.erase(0, 1);
  return cell;
}

}  // namespace app::csv
