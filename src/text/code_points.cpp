#include "text/code_points.h"

#include "units/text.h"

namespace text {

std::u32string code_points(std::string_view utf8) {
  std::u32string out;
  for (std::size_t at = 0; at < utf8.size();) {
    const std::size_t length = units::sequence_length(utf8, at);
    if (length == 0) {
      out += replacement;
      ++at;
      continue;
    }
    const auto byte = [&](std::size_t i) { return static_cast<char32_t>(static_cast<unsigned char>(utf8[at + i])); };
    char32_t character = length == 1 ? byte(0) : byte(0) & (0xFFu >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) character = character << 6 | (byte(i) & 0x3Fu);
    out += character;
    at += length;
  }
  return out;
}

void append(std::string& utf8, char32_t c) {
  const auto put = [&](char32_t byte) { utf8 += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (c < 0x80) return put(c);
  if (c < 0x800) return put(0xC0 | c >> 6), put(0x80 | (c & 0x3F));
  if (c < 0x10000) return put(0xE0 | c >> 12), put(0x80 | (c >> 6 & 0x3F)), put(0x80 | (c & 0x3F));
  put(0xF0 | c >> 18), put(0x80 | (c >> 12 & 0x3F)), put(0x80 | (c >> 6 & 0x3F)), put(0x80 | (c & 0x3F));
}

std::string to_utf8(std::u32string_view characters) {
  std::string out;
  for (const char32_t c : characters) append(out, c);
  return out;
}

}  // namespace text
