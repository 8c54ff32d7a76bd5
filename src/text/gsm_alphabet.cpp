#include "text/gsm_alphabet.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace text {
namespace {

// In the order of their septets; the escape's place holds NUL, which the alphabet does not have.
constexpr std::u32string_view basic{
    U"@£$¥èéùìòÇ\nØø\rÅå"
    U"Δ_ΦΓΛΩΠΨΣΘΞ\0ÆæßÉ"
    U" !\"#¤%&'()*+,-./"
    U"0123456789:;<=>?"
    U"¡ABCDEFGHIJKLMNO"
    U"PQRSTUVWXYZÄÖÑÜ§"
    U"¿abcdefghijklmno"
    U"pqrstuvwxyzäöñüà",
    128};

struct Escaped {
  std::uint8_t septet;
  char32_t character;
};
constexpr std::array<Escaped, 10> extension{{{0x0A, U'\f'},
                                             {0x14, U'^'},
                                             {0x28, U'{'},
                                             {0x29, U'}'},
                                             {0x2F, U'\\'},
                                             {0x3C, U'['},
                                             {0x3D, U'~'},
                                             {0x3E, U']'},
                                             {0x40, U'|'},
                                             {0x65, U'€'}}};

// Where the letters of ASCII stand in `basic`; npos for those that it has not.
constexpr std::array<std::size_t, 128> ascii_places = [] {
  std::array<std::size_t, 128> places{};
  for (std::size_t c = 0; c < places.size(); ++c) places[c] = c == 0 ? basic.npos : basic.find(static_cast<char32_t>(c));
  return places;
}();

}  // namespace

std::optional<GsmCode> gsm_code(char32_t character) {
  if (character == 0) return std::nullopt;
  if (const auto at = character < ascii_places.size() ? ascii_places[character] : basic.find(character); at != std::u32string_view::npos)
    return GsmCode{false, static_cast<std::uint8_t>(at)};
  const auto found = std::ranges::find(extension, character, &Escaped::character);
  if (found == extension.end()) return std::nullopt;
  return GsmCode{true, found->septet};
}

std::optional<char32_t> gsm_character(GsmCode code) {
  if (code.escaped) {
    const auto found = std::ranges::find(extension, code.septet, &Escaped::septet);
    return found == extension.end() ? std::nullopt : std::optional{found->character};
  }
  if (code.septet >= basic.size() || code.septet == gsm_escape) return std::nullopt;
  return basic[code.septet];
}

}  // namespace text
