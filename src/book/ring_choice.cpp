#include "book/ring_choice.h"

#include <algorithm>
#include <cstdint>
#include <limits>

#include "book/ring_walks.h"

namespace book {
namespace {

using Cost = std::int64_t;
constexpr Cost no_way = std::numeric_limits<Cost>::max() / 4;
constexpr double anything = -std::numeric_limits<double>::infinity();

// The fewest cells worth less than `need` that a walk of `count` takes; `never` where there is none. The best stop to come from is the
// least of a window that only moves ahead: a queue of stops with rising numbers holds it.
class FewestBelow {
 public:
  static constexpr std::uint32_t never = std::numeric_limits<std::uint32_t>::max() / 2;

  FewestBelow(const Ring& ring, const Walks& walks, double need, std::size_t count)
      : ring_(ring), walks_(walks), need_(need), count_(count) {}

  [[nodiscard]] std::uint32_t along(const Walk& walk) {
    const std::size_t home = walk.cell.size();
    here_.assign(home + 1, never);
    next_.assign(home + 1, never);
    queue_.resize(home + 1);
    here_[0] = own(walk, 0);
    Band behind{0, 1};
    for (std::size_t taken = 1; taken <= count_; ++taken) {
      const Band band = taken < count_ ? walks_.band(walk, taken, count_) : Band{home, home + 1};
      if (band.from >= band.to) return never;
      step(walk, behind, band);
      std::swap(here_, next_);
      behind = band;
    }
    return here_[home];
  }

 private:
  [[nodiscard]] std::uint32_t own(const Walk& walk, std::size_t stop) const {
    return stop < walk.cell.size() && ring_.worth[walk.cell[stop]] < need_ ? 1 : 0;
  }

  void step(const Walk& walk, Band behind, Band band) {
    std::size_t head = 0, tail = 0, added = behind.from;
    for (std::size_t stop = band.from; stop < band.to; ++stop) {
      const std::size_t until = std::min(walk.last[stop] + 1, behind.to);
      for (; added < until; ++added) {
        while (tail > head && here_[queue_[tail - 1]] >= here_[added]) --tail;
        queue_[tail++] = added;
      }
      while (head < tail && queue_[head] < walk.first[stop]) ++head;
      next_[stop] = head < tail ? std::min(never, here_[queue_[head]] + own(walk, stop)) : never;
    }
  }

  const Ring& ring_;
  const Walks& walks_;
  double need_;
  std::size_t count_;
  std::vector<std::uint32_t> here_, next_;
  std::vector<std::size_t> queue_;
};

// Over all walks through cells worth `threshold` or more; whoever is content with `enough` need not wait for the least.
std::uint32_t fewest_below(const Ring& ring, const Walks& walks, double threshold, double need, std::size_t count, std::uint32_t enough) {
  FewestBelow fewest{ring, walks, need, count};
  std::uint32_t least = FewestBelow::never;
  for (const std::size_t start : walks.starts(threshold)) {
    least = std::min(least, fewest.along(walks.from(start, threshold)));
    if (least <= enough) break;
  }
  return least;
}

bool feasible(const Ring& ring, const Walks& walks, double threshold, std::size_t count) {
  return fewest_below(ring, walks, threshold, anything, count, 0) == 0;
}

// The largest of rising `values` that `holds`, which holds at the first and, where it fails, fails from there on.
template <class Holds>
double largest(const std::vector<double>& values, Holds holds) {
  std::size_t good = 0, fails = values.size();
  while (fails - good > 1) {
    const std::size_t middle = good + (fails - good) / 2;
    (holds(values[middle]) ? good : fails) = middle;
  }
  return values[good];
}

// The cheapest walk: a cell below need costs more than all gaps together can, a gap costs its square.
class Cheapest {
 public:
  Cheapest(const Ring& ring, const Walks& walks, double need, std::size_t count)
      : ring_(ring), walks_(walks), need_(need), count_(count), below_(static_cast<Cost>(ring.open.size() * ring.open.size()) + 1) {}

  // `came` takes, for every step and stop, the stop before it; without it only the cost is found.
  Cost cost(const Walk& walk, std::vector<std::vector<std::uint32_t>>* came) const {
    const std::size_t home = walk.cell.size();
    std::vector<Cost> costs(home + 1, no_way), next(home + 1, no_way);
    costs[0] = own(walk, 0);
    Band behind{0, 1};
    for (std::size_t taken = 1; taken <= count_; ++taken) {
      const Band band = taken < count_ ? walks_.band(walk, taken, count_) : Band{home, home + 1};
      if (came != nullptr) came->emplace_back(home + 1, 0);
      for (std::size_t stop = band.from; stop < band.to; ++stop) {
        const auto [best, by] = step(walk, costs, behind, stop);
        next[stop] = best < no_way && stop < home ? best + own(walk, stop) : best;
        if (came != nullptr) came->back()[stop] = by;
      }
      std::swap(costs, next);
      behind = band;
    }
    return costs[home];
  }

 private:
  struct Step {
    Cost cost;
    std::uint32_t by;
  };

  [[nodiscard]] Cost own(const Walk& walk, std::size_t stop) const { return ring_.worth[walk.cell[stop]] < need_ ? below_ : 0; }

  static Step step(const Walk& walk, const std::vector<Cost>& costs, Band behind, std::size_t stop) {
    const std::size_t from = std::max(walk.first[stop], behind.from), to = std::min(walk.last[stop] + 1, behind.to);
    Step best{no_way, 0};
    for (std::size_t before = from; before < to; ++before) {
      const auto gap = static_cast<Cost>(walk.way[stop] - walk.way[before]);
      const Cost cost = costs[before] + gap * gap;
      if (cost < best.cost) best = {cost, static_cast<std::uint32_t>(before)};
    }
    return best;
  }

  const Ring& ring_;
  const Walks& walks_;
  double need_;
  std::size_t count_;
  Cost below_;
};

RingChoice traced(const Ring& ring, const Walk& walk, const Cheapest& cheapest, double need) {
  std::vector<std::vector<std::uint32_t>> came;
  static_cast<void>(cheapest.cost(walk, &came));
  RingChoice choice;
  std::size_t stop = walk.cell.size();
  for (auto step = came.rbegin(); step != came.rend(); ++step) {
    stop = (*step)[stop];
    choice.cells.push_back(walk.cell[stop]);
  }
  std::sort(choice.cells.begin(), choice.cells.end());
  choice.least = std::numeric_limits<double>::infinity();
  for (const std::size_t cell : choice.cells) {
    choice.least = std::min(choice.least, ring.worth[cell]);
    choice.below += ring.worth[cell] < need ? 1 : 0;
  }
  return choice;
}

std::vector<double> rising_worths(const Ring& ring) {
  std::vector<double> worths;
  for (std::size_t i = 0; i < ring.open.size(); ++i)
    if (ring.open[i]) worths.push_back(ring.worth[i]);
  std::sort(worths.begin(), worths.end());
  worths.erase(std::unique(worths.begin(), worths.end()), worths.end());
  return worths;
}

RingChoice lone(const Ring& ring, double best, double need) {
  std::size_t cell = 0;
  while (!ring.open[cell] || ring.worth[cell] < best) ++cell;
  return {{cell}, best, best, best < need ? std::size_t{1} : 0};
}

}  // namespace

std::optional<RingChoice> choose(const Ring& ring, std::size_t count, double need, double floor) {
  std::vector<double> worths = rising_worths(ring);
  if (worths.empty() || count == 0) return std::nullopt;
  const Walks walks{ring};
  count = std::min(count, most_clear(ring, anything));
  while (count > 1 && !feasible(ring, walks, anything, count)) --count;
  if (count == 1) return lone(ring, worths.back(), need);

  const double reachable = largest(worths, [&](double threshold) { return feasible(ring, walks, threshold, count); });
  std::erase_if(worths, [&](double worth) { return worth < std::min(floor, reachable) || worth > reachable; });
  const std::uint32_t fewest = fewest_below(ring, walks, worths.front(), need, count, 0);
  const double threshold = largest(worths, [&](double worth) { return fewest_below(ring, walks, worth, need, count, fewest) == fewest; });
  const Cheapest cheapest{ring, walks, need, count};
  FewestBelow below{ring, walks, need, count};
  Cost least = no_way;
  Walk best;
  for (const std::size_t start : walks.starts(threshold)) {
    Walk walk = walks.from(start, threshold);
    if (below.along(walk) > fewest) continue;
    const Cost cost = cheapest.cost(walk, nullptr);
    if (cost >= least) continue;
    least = cost;
    best = std::move(walk);
  }
  RingChoice choice = traced(ring, best, cheapest, need);
  choice.reachable = reachable;
  return choice;
}

std::size_t most_clear(const Ring& ring, double need) {
  // From any first cell the nearest one allowed is never a worse next one.
  const std::size_t size = ring.open.size();
  std::vector<std::size_t> next(2 * size + 1, 2 * size);  // the first fit cell here or beyond, over two turns
  for (std::size_t i = 2 * size; i-- > 0;) next[i] = ring.open[i % size] && ring.worth[i % size] >= need ? i : next[i + 1];
  std::size_t most = 0;
  for (std::size_t start = next[0]; start < size; start = next[start + 1]) {
    std::size_t taken = 1, at = start;
    while (true) {
      const std::size_t to = at + ring.least_gap;
      if (to >= 2 * size || next[to] + ring.least_gap > start + size) break;
      at = next[to];
      ++taken;
    }
    most = std::max(most, taken);
  }
  return most;
}

}  // namespace book
