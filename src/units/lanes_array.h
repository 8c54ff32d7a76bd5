// Arrays of doubles, eight at a time.
#pragma once
#include <cstddef>
#include <type_traits>

#include "units/lanes.h"

namespace units {

namespace detail {

// Four doubles anywhere in an array.
typedef double Loose [[gnu::vector_size(32), gnu::aligned(8), gnu::may_alias]];

}  // namespace detail

// `count` of 1..8 doubles; the lanes beyond repeat the last one, so that they do what any number of the array might do.
SAPDRAW_INLINE Lanes load(const double* from, std::size_t count) {
  if (count == Lanes::count) return {*reinterpret_cast<const detail::Loose*>(from), *reinterpret_cast<const detail::Loose*>(from + 4)};
  Lanes lanes = from[count - 1];
  for (std::size_t lane = 0; lane + 1 < count; ++lane) lanes.set(static_cast<int>(lane), from[lane]);
  return lanes;
}

// The first `count` lanes, 1..8.
SAPDRAW_INLINE void store(Lanes lanes, double* to, std::size_t count) {
  if (count == Lanes::count) {
    *reinterpret_cast<detail::Loose*>(to) = lanes.low;
    *reinterpret_cast<detail::Loose*>(to + 4) = lanes.high;
    return;
  }
  for (std::size_t lane = 0; lane < count; ++lane) to[lane] = lanes[static_cast<int>(lane)];
}

// Calls body(at, count) for every block of [from, until): count is 8, in a type that tells the compiler so, in all but the last. Take it
// as `auto`, so that whole blocks become a loop of their own.
template <class Body>
SAPDRAW_INLINE void for_blocks(std::size_t from, std::size_t until, Body body) {
  constexpr std::integral_constant<std::size_t, Lanes::count> whole{};
  for (; from + whole <= until; from += whole) body(from, whole);
  if (from < until) body(from, until - from);
}

}  // namespace units
