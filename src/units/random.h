// Reproducible random numbers without state: a number is a function of (seed, stream, index), so that the order of work,
// the number of threads and the standard library do not matter.
#pragma once
#include <cstdint>

namespace units {

// Dimensions for which low-discrepancy points are known here.
inline constexpr unsigned sobol_dimensions = 224;

// Coordinate `dimension` (below sobol_dimensions) of point `index` of Sobol's sequence, Owen-scrambled by `seed`; inside (0, 1).
// The first 2^k points fill every 2^-k interval of every coordinate exactly once, for every seed.
// Sources: direction numbers of Joe & Kuo 2008 (SIAM J. Sci. Comput. 30:2635); scrambling by hashing, Laine & Karras 2011
// (Computer Graphics Forum 30:1151), in the form of Burley 2020 (J. Computer Graphics Techniques 9(4)).
[[nodiscard]] double sobol(std::uint32_t index, unsigned dimension, std::uint64_t seed);

// Direction number `bit` (0 the first) of a coordinate as a binary fraction: bit 31 stands for 1/2.
[[nodiscard]] std::uint32_t sobol_direction(unsigned dimension, unsigned bit);

// An independent uniform number inside (0, 1) for each (seed, stream, index): SplitMix64 (Steele, Lea & Flood 2014) as a hash.
[[nodiscard]] double hashed_uniform(std::uint64_t seed, std::uint64_t stream, std::uint64_t index);

// Quantile of the standard normal distribution; `probability` inside (0, 1). Wichura 1988, algorithm AS 241 (PPND16):
// relative error about 1e-16.
[[nodiscard]] double normal_quantile(double probability);

}  // namespace units
