// The letters a phone writes in seven bits.
// Source: 3GPP TS 23.038, clause 6.2.1 (default alphabet) and 6.2.1.1 (its extension table, reached by an escape).
#pragma once
#include <cstdint>
#include <optional>

namespace text {

inline constexpr std::uint8_t gsm_escape = 0x1B;

struct GsmCode {
  bool escaped;         // stands in the extension table: escape, then `septet`
  std::uint8_t septet;  // 0..127
};

// Empty where the alphabet has no such character.
[[nodiscard]] std::optional<GsmCode> gsm_code(char32_t character);

// The character of a code; empty for the escape itself and for places of the extension table that hold none.
[[nodiscard]] std::optional<char32_t> gsm_character(GsmCode code);

}  // namespace text
