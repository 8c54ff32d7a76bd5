// Which cells of a ring to take, so that the worst of them is as good as it can be and neighbours keep their gaps. Exact on the ring:
// dynamic programming over the number of cells taken, once for every cell that the walk around may begin with.
#pragma once
#include <cstddef>
#include <optional>
#include <vector>

namespace book {

struct Ring {
  std::vector<bool> open;     // cells that may be taken
  std::vector<double> worth;  // of every cell; only those of open cells count; may be infinite
  std::size_t least_gap = 1;  // cells from one taken to the next, >= 1
  std::size_t most_open = 1;  // open cells from one taken (not counted) to the next (counted), >= 1
};

struct RingChoice {
  std::vector<std::size_t> cells;  // rising, one or more
  double least = 0.0;              // worth of the worst
  std::size_t below = 0;           // how many are worth less than `need`
};

// Takes `count` cells or, where gaps do not allow so many, the most below that. Of all such choices that with the largest least worth; of
// these the one with the fewest below `need`; of these the most even, by the sum of squared gaps; of these one and always the same.
// A lone cell has no neighbour: gaps do not bind it. Empty where no cell is open.
[[nodiscard]] std::optional<RingChoice> choose(const Ring& ring, std::size_t count, double need);

// Most open cells worth `need` or more that keep the least gap, whatever ground stays bare between them.
[[nodiscard]] std::size_t most_clear(const Ring& ring, double need);

}  // namespace book
