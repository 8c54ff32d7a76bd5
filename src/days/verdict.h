// Whether a crew should go: the chance of an all clear against the owner's two marks, and the age of the forecast it rests on.
#pragma once
#include "days/practice.h"

namespace days {

enum class Verdict { go, tight, no_go };  // best first

// An old forecast (Decision::oldest_forecast_h) supports no GO, whatever it says.
[[nodiscard]] inline Verdict verdict(const Decision& decision, double chance, bool forecast_old) {
  if (chance >= decision.go_chance && !forecast_old) return Verdict::go;
  return chance >= decision.tight_chance ? Verdict::tight : Verdict::no_go;
}

}  // namespace days
