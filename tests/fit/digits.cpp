#include "fit/digits.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

namespace fit {

double to_digits(double value, int digits) { return std::strtod(fmt::format("{:.{}e}", value, digits - 1).c_str(), nullptr); }

std::string digits_text(double value, int digits) { return fmt::format("{}", to_digits(value, digits)); }

}  // namespace fit
