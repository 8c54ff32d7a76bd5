// Which cells of a ring to take, so that all are good enough, the worst as good as can be, and neighbours keep their gaps. Exact on the
// ring: dynamic programming over the number of cells taken, once for every cell that the walk around may begin with.
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
  double reachable = 0.0;          // the largest least worth of any choice of as many
  std::size_t below = 0;           // how many are worth less than `need`
};

// Takes `count` cells or, where gaps do not allow so many, the most below that. Of all such choices it takes, one rule after the other,
// those with least worth `floor` or, where that cannot be, with the largest; with the fewest cells below `need`; with the largest least
// worth; with the smallest sum of squared gaps, the most even; and of these one, always the same. Where all can have what they need that
// is the choice of the largest least worth. A lone cell has no neighbour: gaps do not bind it. Empty where no cell is open.
// Requires floor <= need.
[[nodiscard]] std::optional<RingChoice> choose(const Ring& ring, std::size_t count, double need, double floor);

// Most open cells worth `need` or more that keep the least gap, whatever ground stays bare between them.
[[nodiscard]] std::size_t most_clear(const Ring& ring, double need);

}  // namespace book
