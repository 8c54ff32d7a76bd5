#include "text/clean.h"

#include <algorithm>
#include <array>

#include "text/code_points.h"
#include "text/gsm_alphabet.h"
#include "text/plain_forms.h"

namespace text {
namespace {

struct Range {
  char32_t first, last;
};

template <std::size_t N>
bool in(const std::array<Range, N>& ranges, char32_t c) {
  return std::ranges::any_of(ranges, [&](const Range& range) { return c >= range.first && c <= range.last; });
}

// Steers, joins or is not seen.
constexpr std::array<Range, 13> unseen{{{0x00AD, 0x00AD},
                                        {0x034F, 0x034F},
                                        {0x061C, 0x061C},
                                        {0x115F, 0x1160},
                                        {0x17B4, 0x17B5},
                                        {0x180B, 0x180F},
                                        {0x200B, 0x200F},
                                        {0x202A, 0x202E},
                                        {0x2060, 0x206F},
                                        {0xFE00, 0xFE0F},
                                        {0xFEFF, 0xFEFF},
                                        {0xFFF9, 0xFFFB},
                                        {0xE0000, 0xE0FFF}}};
constexpr std::array<Range, 9> blanks{{{0x0000, 0x0020},
                                       {0x007F, 0x00A0},
                                       {0x1680, 0x1680},
                                       {0x2000, 0x200A},
                                       {0x2028, 0x2029},
                                       {0x202F, 0x202F},
                                       {0x205F, 0x205F},
                                       {0x3000, 0x3000},
                                       {0xE000, 0xF8FF}}};  // private use: nobody knows what it shows
// No letters: signs, arrows, boxes, pictures.
constexpr std::array<Range, 5> pictures{{{0x00A1, 0x00BF}, {0x2010, 0x2BFF}, {0xFFFC, 0xFFFF}, {0x1F000, 0x1FBFF}, {0xF0000, 0x10FFFF}}};
constexpr Range combining{0x0300, 0x036F};

bool is_ascii_word(char32_t c) { return (c >= U'0' && c <= U'9') || (c >= U'A' && c <= U'Z') || (c >= U'a' && c <= U'z'); }

std::u32string cleaned(std::string_view utf8, std::size_t longest) {
  std::u32string out;
  for (char32_t c : code_points(utf8)) {
    if (in(unseen, c)) continue;
    if (in(blanks, c)) c = U' ';
    if (c == replacement) c = U'?';
    if (c == U' ' && (out.empty() || out.back() == U' ')) continue;
    out += c;
  }
  if (out.size() > longest) {
    const auto word_end = out.rfind(U' ', longest);
    out.resize(word_end == std::u32string::npos ? longest : word_end);
  }
  while (out.ends_with(U' ')) out.pop_back();
  return out;
}

}  // namespace

std::string clean(std::string_view utf8, std::size_t longest) { return to_utf8(cleaned(utf8, longest)); }

std::string for_phone(std::string_view utf8) {
  const std::u32string characters = cleaned(utf8, 1000);
  std::u32string out;
  bool left_out = false;
  for (const char32_t c : characters) {
    if (c >= combining.first && c <= combining.last && !out.empty()) {
      if (const auto one = composed(out.back(), c)) out.back() = *one;
    } else if (gsm_code(c)) {
      out += c;
    } else if (const auto plain = plain_form(c)) {
      out += *plain;
    } else if (in(pictures, c)) {
      left_out = true;
    } else {
      return to_utf8(characters);
    }
  }
  const bool says_something = std::ranges::any_of(out, [](char32_t c) { return is_ascii_word(c) || (c >= 0x80 && !in(pictures, c)); });
  if (left_out && !says_something) return to_utf8(characters);
  return clean(to_utf8(out));
}

}  // namespace text
