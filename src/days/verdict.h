// Whether a crew should go: the chance of an all clear against the owner's two marks.
#pragma once
#include "days/practice.h"

namespace days {

enum class Verdict { go, tight, no_go };  // best first

[[nodiscard]] inline Verdict verdict(const Decision& decision, double chance) {
  if (chance >= decision.go_chance) return Verdict::go;
  return chance >= decision.tight_chance ? Verdict::tight : Verdict::no_go;
}

}  // namespace days
