// Going round a flare.
#pragma once
#include <cmath>

namespace book {

// The way clockwise from one place to another: 0 <= result < `flare_cm`. Places may lie turns away from each other.
[[nodiscard]] inline double clockwise_cm(double from_cm, double to_cm, double flare_cm) {
  const double way = std::fmod(to_cm - from_cm, flare_cm);
  const double positive = way < 0.0 ? way + flare_cm : way;
  return positive < flare_cm ? positive : 0.0;  // a tiny negative way rounds up to a whole turn
}

}  // namespace book
