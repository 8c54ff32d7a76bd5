// How a text travels to a phone: in which alphabet, how long it is, in how many parts.
// Source: 3GPP TS 23.038 (alphabets), 3GPP TS 23.040 clause 9.2.3.24 (a message in parts: each part begins with a header).
#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace text {

enum class Alphabet {
  gsm7,  // counted in septets: one a character, two for those of the extension table
  ucs2   // counted in 16-bit units: one a character, two beyond U+FFFF
};

inline constexpr std::size_t user_data_octets = 140;  // of one part, its header included
inline constexpr std::size_t part_header_octets = 6;  // with the common 8-bit reference; 7 with a 16-bit one
inline constexpr std::size_t most_parts = 255;

// Units that fit beside a header of so many octets (0 for a message of one part): 160 or 153 septets, 70 or 67 16-bit units.
[[nodiscard]] constexpr std::size_t capacity(Alphabet alphabet, std::size_t header_octets) {
  return alphabet == Alphabet::gsm7 ? (user_data_octets - header_octets) * 8 / 7 : (user_data_octets - header_octets) / 2;
}

struct Measure {
  Alphabet alphabet = Alphabet::gsm7;
  std::size_t units = 0;
  std::size_t parts = 1;  // an empty text is one empty part
};

// GSM 7-bit if every character has a place there, else UCS-2. No part ends between an escape and its character, nor within a surrogate
// pair, so there may be a part more than units / capacity. Broken UTF-8 counts as the replacement character. More than `most_parts` cannot
// be sent; the number is given all the same.
[[nodiscard]] Measure measure(std::string_view utf8);

// The parts as a phone would put them together again; as many as measure says.
[[nodiscard]] std::vector<std::string> parts_of(std::string_view utf8);

[[nodiscard]] bool is_gsm(std::string_view utf8);

}  // namespace text
