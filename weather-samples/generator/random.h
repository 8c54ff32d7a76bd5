// Random numbers that are the same on every machine: a hash of (seed, stream, index), no state, no library distribution.
#pragma once
#include <cstdint>

namespace samples {

// 0 <= number < 1. Finaliser of SplitMix64 (Steele, Lea & Flood 2014, "Fast splittable pseudorandom number generators", from memory).
[[nodiscard]] inline double uniform(std::uint64_t seed, std::uint64_t stream, std::uint64_t index) {
  const auto mix = [](std::uint64_t bits) {
    bits += 0x9e3779b97f4a7c15ULL;
    bits = (bits ^ (bits >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    bits = (bits ^ (bits >> 27U)) * 0x94d049bb133111ebULL;
    return bits ^ (bits >> 31U);
  };
  return static_cast<double>(mix(mix(mix(seed) + stream) + index) >> 11U) * 0x1.0p-53;
}

// Mean 0, standard deviation 1, never beyond 6: the sum of twelve uniforms, which needs no logarithm and so no math library.
[[nodiscard]] inline double normal(std::uint64_t seed, std::uint64_t stream, std::uint64_t index) {
  double sum = -6.0;
  for (std::uint64_t k = 0; k < 12; ++k) sum += uniform(seed, stream, 12 * index + k);
  return sum;
}

}  // namespace samples
