#include "feeds/vtec.h"

#include <algorithm>
#include <array>

namespace feeds {
namespace {

bool all_of(std::string_view text, bool (*fits)(char)) { return std::all_of(text.begin(), text.end(), fits); }
bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace

std::optional<Vtec> parse_vtec(std::string_view text) {
  // Widths are fixed: /k.aaa.cccc.pp.s.####.
  constexpr std::array<std::size_t, 6> widths{1, 3, 4, 2, 1, 4};
  if (!text.starts_with('/')) return std::nullopt;
  text.remove_prefix(1);
  std::array<std::string_view, 6> parts;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (text.size() <= widths[i] || text[widths[i]] != '.') return std::nullopt;
    parts[i] = text.substr(0, widths[i]);
    text.remove_prefix(widths[i] + 1);
  }
  for (std::size_t i = 0; i < 5; ++i)
    if (!all_of(parts[i], is_upper)) return std::nullopt;
  if (!all_of(parts[5], is_digit)) return std::nullopt;
  return Vtec{parts[0][0], std::string{parts[1]}, std::string{parts[2]}, std::string{parts[3]}, parts[4][0], std::string{parts[5]}};
}

}  // namespace feeds
