// Random numbers for the local search: fast, the same everywhere, and owned by whoever draws them.
// Source: SplitMix64, Steele, Lea & Flood 2014 (OOPSLA).
#pragma once
#include <cstdint>

namespace plan {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}

  std::uint64_t bits() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31U);
  }
  // 0..count-1; requires 1 <= count < 2^31. The bias is below count / 2^32.
  int below(int count) { return static_cast<int>(((bits() >> 32U) * static_cast<std::uint64_t>(count)) >> 32U); }
  // Inside (0, 1).
  double share() { return (static_cast<double>(bits() >> 11U) + 0.5) * 0x1p-53; }

 private:
  std::uint64_t state_;
};

}  // namespace plan
