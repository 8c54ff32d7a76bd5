// Walks around a ring from one cell back to it, and which steps and stops the gaps allow.
#pragma once
#include <cstddef>
#include <vector>

#include "book/ring_choice.h"

namespace book {

// The cells that may be taken, in the order of a walk that begins at one of them and ends there after a whole turn.
struct Walk {
  std::vector<std::size_t> cell;         // in the ring
  std::vector<std::size_t> way;          // cells walked; one more entry than `cell`: the whole turn
  std::vector<std::size_t> open;         // open cells walked over, likewise
  std::vector<std::size_t> first, last;  // stops from which a step may end here; none where first > last
};

// Stops [from, to) at which a walk of `count` may be after `taken` steps, by the gaps behind and ahead of it.
struct Band {
  std::size_t from, to;
};

class Walks {
 public:
  // Keeps a reference to `ring`.
  explicit Walks(const Ring& ring);

  // Every choice takes one of the first `most_open` + 1 open cells: a gap that jumps them all would be too wide. Of these, the ones worth
  // `threshold` or more.
  [[nodiscard]] std::vector<std::size_t> starts(double threshold) const;
  // The walk through all open cells worth `threshold` or more. Requires `start` to be one of them.
  [[nodiscard]] Walk from(std::size_t start, double threshold) const;
  // Empty where none can be. Requires taken <= count.
  [[nodiscard]] Band band(const Walk& walk, std::size_t taken, std::size_t count) const;

 private:
  void add_steps(Walk& walk) const;

  const Ring& ring_;
  std::vector<std::size_t> before_;  // open cells before each
};

}  // namespace book
