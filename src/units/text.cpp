#include "units/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace units {
namespace {

unsigned byte_at(std::string_view text, std::size_t at) { return at < text.size() ? static_cast<unsigned char>(text[at]) : 0u; }

}  // namespace

std::size_t sequence_length(std::string_view text, std::size_t at) {
  const unsigned lead = byte_at(text, at);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xC2 && lead <= 0xDF ? 2 : (lead & 0xF0u) == 0xE0 ? 3 : lead >= 0xF0 && lead <= 0xF4 ? 4 : 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte_at(text, at + i) & 0xC0u) != 0x80) return 0;
  const unsigned second = byte_at(text, at + 1);
  const bool overlong = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
  const bool surrogate_or_beyond = (lead == 0xED && second > 0x9F) || (lead == 0xF4 && second > 0x8F);
  return overlong || surrogate_or_beyond ? 0 : length;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const auto first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

bool is_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence_length(text, at);
    if (length == 0) return false;
    at += length;
  }
  return true;
}

std::string for_message(std::string_view text, std::size_t longest) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence_length(text, at);
    if (out.size() + std::max<std::size_t>(length, 1) > longest) return out + "...";
    const unsigned lead = byte_at(text, at);
    if (length == 0 || lead < 0x20 || lead == 0x7F)
      out += '?';
    else
      out += text.substr(at, length);
    at += std::max<std::size_t>(length, 1);
  }
  return out;
}

bool same_letters(std::string_view a, std::string_view b) {
  const auto small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [&](char x, char y) { return small(x) == small(y); });
}

std::optional<double> parse_number(std::string_view text) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace units
