// The shortest round trip through one to four stops, by trying every order once (a tour and its reverse are one).
#pragma once
#include <algorithm>
#include <array>

namespace plan {

// Legs between stops, and from the depot to each, hours.
struct Legs {
  std::array<double, 4> depot{};
  std::array<std::array<double, 4>, 4> between{};
};

[[nodiscard]] inline double tour_of_two(double depot_a, double a_b, double depot_b) { return depot_a + a_b + depot_b; }

// `p`, `q`, `r`: depot to each stop; `pq`...: between them.
[[nodiscard]] inline double tour_of_three(double p, double q, double r, double pq, double pr, double qr) {
  return std::min({p + pq + qr + r, p + pr + qr + q, q + pq + pr + r});
}

[[nodiscard]] inline double tour_of_four(const Legs& legs) {
  const auto& d = legs.depot;
  const auto& b = legs.between;
  // By the two stops at the ends; between them lie the other two in either order.
  const auto ends = [&](std::size_t u, std::size_t v, std::size_t x, std::size_t y) {
    return d[u] + d[v] + b[x][y] + std::min(b[u][x] + b[y][v], b[u][y] + b[x][v]);
  };
  return std::min({ends(0, 1, 2, 3), ends(0, 2, 1, 3), ends(0, 3, 1, 2), ends(1, 2, 0, 3), ends(1, 3, 0, 2), ends(2, 3, 0, 1)});
}

}  // namespace plan
