// Arrays of doubles, eight at a time.
#pragma once
#include <cstddef>
#include <cstring>
#include <type_traits>

#include "units/lanes.h"

namespace units {

// `count` of 1..8 doubles; the lanes beyond repeat the last one, so that they do what any number of the array might do.
SAPDRAW_INLINE Lanes load(const double* from, std::size_t count) {
  Lanes lanes;
  if (count == Lanes::count) {
    std::memcpy(&lanes, from, sizeof lanes);
    return lanes;
  }
  for (int lane = 0; lane < Lanes::count; ++lane)
    lanes.set(lane, from[static_cast<std::size_t>(lane) < count ? lane : static_cast<int>(count) - 1]);
  return lanes;
}

// The first `count` lanes, 1..8.
SAPDRAW_INLINE void store(Lanes lanes, double* to, std::size_t count) { std::memcpy(to, &lanes, count * sizeof(double)); }

// Calls body(at, count) for every block of [from, until): count is 8, known to the compiler, in all but the last.
template <class Body>
SAPDRAW_INLINE void for_blocks(std::size_t from, std::size_t until, Body body) {
  constexpr std::integral_constant<std::size_t, Lanes::count> whole{};
  for (; from + whole <= until; from += whole) body(from, whole);
  if (from < until) body(from, until - from);
}

}  // namespace units
