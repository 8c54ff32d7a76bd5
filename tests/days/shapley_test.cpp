#include "days/shapley.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>

#include "support/within.h"
#include "units/random.h"

namespace {

// A game whose sets are worth anything between -1 and 1.
std::vector<double> game(std::size_t parts, std::uint64_t seed) {
  std::vector<double> worth(std::size_t{1} << parts);
  for (std::size_t set = 0; set < worth.size(); ++set) worth[set] = 2.0 * units::hashed_uniform(seed, parts, set) - 1.0;
  return worth;
}

// The definition itself: what a part adds when it joins, averaged over every order.
std::vector<double> over_all_orders(const std::vector<double>& worth, std::size_t parts) {
  std::vector<std::size_t> order(parts);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::vector<double> shares(parts, 0.0);
  double orders = 0.0;
  do {
    std::size_t joined = 0;
    for (const std::size_t part : order) {
      shares[part] += worth[joined | std::size_t{1} << part] - worth[joined];
      joined |= std::size_t{1} << part;
    }
    orders += 1.0;
  } while (std::next_permutation(order.begin(), order.end()));
  for (double& share : shares) share /= orders;
  return shares;
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("a share is what a part adds, averaged over every order of joining") {
    for (std::size_t parts = 1; parts <= 6; ++parts)
      for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        const auto worth = game(parts, seed);
        const auto shares = days::shapley(worth), expected = over_all_orders(worth, parts);
        REQUIRE(shares.size() == parts);
        for (std::size_t i = 0; i < parts; ++i) CHECK(shares[i] == within(expected[i], 1e-12));
        CHECK(std::accumulate(shares.begin(), shares.end(), 0.0) == within(worth.back() - worth.front(), 1e-12));
      }
  }

  TEST_CASE("a left glove and two right ones share a pair as by hand: two thirds, a sixth, a sixth") {
    // Only the left one with a right one is worth anything: bit 0 is the left. Of six orders it completes the pair in four.
    const std::vector<double> worth{0, 0, 0, 1, 0, 1, 0, 1};
    const auto shares = days::shapley(worth);
    CHECK(shares[0] == within(2.0 / 3.0, 1e-15));
    CHECK(shares[1] == within(1.0 / 6.0, 1e-15));
    CHECK(shares[2] == within(1.0 / 6.0, 1e-15));
  }

  TEST_CASE("parts that add alike share alike, and one that adds nothing gets nothing") {
    // Worth by the number of the first three parts in the set, the fourth changes nothing.
    const double by_count[]{0.3, -0.2, 1.7, 0.9};
    std::vector<double> worth(16);
    for (std::size_t set = 0; set < 16; ++set) worth[set] = by_count[(set & 1) + (set >> 1 & 1) + (set >> 2 & 1)];
    const auto shares = days::shapley(worth);
    CHECK(shares[0] == within(0.2, 1e-15));
    CHECK(shares[1] == within(shares[0], 1e-15));
    CHECK(shares[2] == within(shares[0], 1e-15));
    CHECK(shares[3] == 0.0);
  }

  TEST_CASE("no parts share nothing") { CHECK(days::shapley(std::vector{4.0}).empty()); }
}
