#include "units/random.h"

#include <array>
#include <cmath>

#include "units/sobol_directions.h"

namespace units {
namespace {

constexpr unsigned bits = 32;

using Matrix = std::array<std::uint32_t, bits>;

constexpr unsigned degree(std::uint32_t polynomial) {
  unsigned d = 0;
  while (polynomial >>= 1) ++d;
  return d;
}

// Direction numbers as binary fractions: bit 31 stands for 1/2.
constexpr Matrix generator(unsigned dimension) {
  Matrix v{};
  if (dimension == 0) {  // van der Corput
    for (unsigned i = 0; i < bits; ++i) v[i] = 1U << (bits - 1 - i);
    return v;
  }
  const SobolDirection& direction = sobol_directions[dimension];
  const unsigned s = degree(direction.polynomial);
  for (unsigned i = 0; i < s; ++i) v[i] = direction.initial[i] << (bits - 1 - i);
  for (unsigned i = s; i < bits; ++i) {
    v[i] = v[i - s] ^ (v[i - s] >> s);
    for (unsigned k = 1; k < s; ++k)
      if ((direction.polynomial >> (s - k)) & 1U) v[i] ^= v[i - k];
  }
  return v;
}

constexpr std::array<Matrix, sobol_dimensions> generators = [] {
  std::array<Matrix, sobol_dimensions> all{};
  for (unsigned d = 0; d < sobol_dimensions; ++d) all[d] = generator(d);
  return all;
}();

constexpr std::uint32_t reversed(std::uint32_t x) {
  x = ((x >> 1) & 0x55555555U) | ((x & 0x55555555U) << 1);
  x = ((x >> 2) & 0x33333333U) | ((x & 0x33333333U) << 2);
  x = ((x >> 4) & 0x0f0f0f0fU) | ((x & 0x0f0f0f0fU) << 4);
  x = ((x >> 8) & 0x00ff00ffU) | ((x & 0x00ff00ffU) << 8);
  return (x >> 16) | (x << 16);
}

// Each bit is flipped by a hash of the bits below it; on a reversed number that is Owen's nested scrambling.
constexpr std::uint32_t nested_scramble(std::uint32_t x, std::uint32_t seed) {
  x = reversed(x);
  x ^= x * 0x3d20adeaU;
  x += seed;
  x *= (seed >> 16) | 1U;
  x ^= x * 0x05526c56U;
  x ^= x * 0x53a22864U;
  return reversed(x);
}

constexpr std::uint64_t split_mix(std::uint64_t z) {
  z += 0x9e3779b97f4a7c15ULL;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31);
}

template <std::size_t N>
double polynomial(const std::array<double, N>& coefficients, double x) {
  double sum = 0.0;
  for (std::size_t i = N; i-- > 0;) sum = sum * x + coefficients[i];
  return sum;
}

}  // namespace

std::uint32_t sobol_direction(unsigned dimension, unsigned bit) { return generators[dimension][bit]; }

double sobol(std::uint32_t index, unsigned dimension, std::uint64_t seed) {
  std::uint32_t x = 0;
  for (unsigned bit = 0; index != 0; ++bit, index >>= 1)
    if (index & 1U) x ^= generators[dimension][bit];
  x = nested_scramble(x, static_cast<std::uint32_t>(split_mix(split_mix(seed) + dimension)));
  return (static_cast<double>(x) + 0.5) * 0x1p-32;
}

double hashed_uniform(std::uint64_t seed, std::uint64_t stream, std::uint64_t index) {
  const std::uint64_t hash = split_mix(split_mix(split_mix(seed) + stream) + index);
  return (static_cast<double>(hash >> 12) + 0.5) * 0x1p-52;
}

double normal_quantile(double probability) {
  const double q = probability - 0.5;
  if (std::abs(q) <= 0.425) {
    constexpr std::array a{3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
                           4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3};
    constexpr std::array b{1.0,
                           4.2313330701600911252e1,
                           6.8718700749205790830e2,
                           5.3941960214247511077e3,
                           2.1213794301586595867e4,
                           3.9307895800092710610e4,
                           2.8729085735721942674e4,
                           5.2264952788528545610e3};
    const double r = 0.180625 - q * q;
    return q * polynomial(a, r) / polynomial(b, r);
  }
  const double r = std::sqrt(-std::log(q < 0.0 ? probability : 1.0 - probability));
  double magnitude = 0.0;
  if (r <= 5.0) {
    constexpr std::array c{1.42343711074968357734e0, 4.63033784615654529590e0,  5.76949722146069140550e0,  3.64784832476320460504e0,
                           1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4};
    constexpr std::array d{1.0,
                           2.05319162663775882187e0,
                           1.67638483018380384940e0,
                           6.89767334985100004550e-1,
                           1.48103976427480074590e-1,
                           1.51986665636164571966e-2,
                           5.47593808499534494600e-4,
                           1.05075007164441684324e-9};
    magnitude = polynomial(c, r - 1.6) / polynomial(d, r - 1.6);
  } else {
    constexpr std::array e{6.65790464350110377720e0,  5.46378491116411436990e0,  1.78482653991729133580e0,  2.96560571828504891230e-1,
                           2.65321895265761230930e-2, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7};
    constexpr std::array f{1.0,
                           5.99832206555887937690e-1,
                           1.36929880922735805310e-1,
                           1.48753612908506148525e-2,
                           7.86869131145613259100e-4,
                           1.84631831751005468180e-5,
                           1.42151175831644588870e-7,
                           2.04426310338993978564e-15};
    magnitude = polynomial(e, r - 5.0) / polynomial(f, r - 5.0);
  }
  return q < 0.0 ? -magnitude : magnitude;
}

}  // namespace units
