#include "text/encoding.h"

#include <algorithm>

#include "text/code_points.h"
#include "text/gsm_alphabet.h"

namespace text {
namespace {

bool all_gsm(std::u32string_view characters) {
  return std::ranges::all_of(characters, [](char32_t c) { return gsm_code(c).has_value(); });
}

std::size_t units_of(char32_t character, Alphabet alphabet) {
  if (alphabet == Alphabet::ucs2) return character > 0xFFFF ? 2 : 1;
  const auto code = gsm_code(character);
  return code && code->escaped ? 2 : 1;
}

std::size_t length_of(std::u32string_view characters, Alphabet alphabet) {
  std::size_t length = 0;
  for (const char32_t c : characters) length += units_of(c, alphabet);
  return length;
}

std::vector<std::u32string> cut(std::u32string_view characters, Alphabet alphabet) {
  const bool one = length_of(characters, alphabet) <= capacity(alphabet, 0);
  const std::size_t room = capacity(alphabet, one ? 0 : part_header_octets);
  std::vector<std::u32string> parts(1);
  std::size_t used = 0;
  for (const char32_t c : characters) {
    const std::size_t needed = units_of(c, alphabet);
    if (used + needed > room) {
      parts.emplace_back();
      used = 0;
    }
    parts.back() += c;
    used += needed;
  }
  return parts;
}

}  // namespace

bool is_gsm(std::string_view utf8) { return all_gsm(code_points(utf8)); }

Measure measure(std::string_view utf8) {
  const std::u32string characters = code_points(utf8);
  const Alphabet alphabet = all_gsm(characters) ? Alphabet::gsm7 : Alphabet::ucs2;
  return {alphabet, length_of(characters, alphabet), cut(characters, alphabet).size()};
}

std::vector<std::string> parts_of(std::string_view utf8) {
  const std::u32string characters = code_points(utf8);
  std::vector<std::string> parts;
  for (const std::u32string& part : cut(characters, all_gsm(characters) ? Alphabet::gsm7 : Alphabet::ucs2)) parts.push_back(to_utf8(part));
  return parts;
}

}  // namespace text
