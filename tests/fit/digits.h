// Numbers as they are shipped: to so many significant digits.
#pragma once
#include <string>

namespace fit {

// The number that the text of `digits` significant digits reads back as.
[[nodiscard]] double to_digits(double value, int digits);
// The same as text, never with an exponent: "56", "0.79", "1140".
[[nodiscard]] std::string digits_text(double value, int digits);

}  // namespace fit
