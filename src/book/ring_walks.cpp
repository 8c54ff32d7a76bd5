#include "book/ring_walks.h"

#include <algorithm>

namespace book {

Walks::Walks(const Ring& ring) : ring_(ring), before_(ring.open.size() + 1, 0) {
  for (std::size_t i = 0; i < ring.open.size(); ++i) before_[i + 1] = before_[i] + (ring.open[i] ? 1 : 0);
}

std::vector<std::size_t> Walks::starts(double threshold) const {
  std::vector<std::size_t> result;
  std::size_t seen = 0;
  for (std::size_t i = 0; i < ring_.open.size() && seen <= ring_.most_open; ++i) {
    if (!ring_.open[i]) continue;
    ++seen;
    if (ring_.worth[i] >= threshold) result.push_back(i);
  }
  return result;
}

Walk Walks::from(std::size_t start, double threshold) const {
  Walk walk;
  const std::size_t size = ring_.open.size();
  const auto stop = [&](std::size_t way) {
    walk.way.push_back(way);
    const std::size_t to = start + way;
    walk.open.push_back(to < size ? before_[to + 1] - before_[start + 1] : before_[size] - before_[start + 1] + before_[to - size + 1]);
  };
  for (std::size_t way = 0; way < size; ++way) {
    const std::size_t cell = start + way < size ? start + way : start + way - size;
    if (!ring_.open[cell] || ring_.worth[cell] < threshold) continue;
    walk.cell.push_back(cell);
    stop(way);
  }
  stop(size);
  add_steps(walk);
  return walk;
}

Band Walks::band(const Walk& walk, std::size_t taken, std::size_t count) const {
  const std::size_t ahead = count - taken, turn = walk.way.back(), all = walk.open.back();
  const auto least = [](std::size_t a, std::size_t b) { return a > b ? a - b : 0; };
  const std::size_t open_from = least(all, ahead * ring_.most_open), way_from = taken * ring_.least_gap;
  const std::size_t open_to = taken * ring_.most_open;
  if (ahead * ring_.least_gap > turn) return {0, 0};
  const std::size_t way_to = turn - ahead * ring_.least_gap;
  const auto end = walk.way.end() - 1, open_end = walk.open.end() - 1;
  const auto from = std::max(std::lower_bound(walk.way.begin(), end, way_from) - walk.way.begin(),
                             std::lower_bound(walk.open.begin(), open_end, open_from) - walk.open.begin());
  const auto to = std::min(std::upper_bound(walk.way.begin(), end, way_to) - walk.way.begin(),
                           std::upper_bound(walk.open.begin(), open_end, open_to) - walk.open.begin());
  return {static_cast<std::size_t>(from), static_cast<std::size_t>(std::max(from, to))};
}

void Walks::add_steps(Walk& walk) const {
  std::size_t first = 0, after = 0;
  for (std::size_t stop = 0; stop < walk.way.size(); ++stop) {
    while (walk.open[stop] - walk.open[first] > ring_.most_open) ++first;
    while (after < stop && walk.way[stop] - walk.way[after] >= ring_.least_gap) ++after;
    walk.first.push_back(after == 0 ? 1 : first);
    walk.last.push_back(after == 0 ? 0 : after - 1);
  }
}

}  // namespace book
