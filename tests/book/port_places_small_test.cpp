// Small flares, where every choice of cells can be tried: the plan found is the best of them all.
#include "book/flare_worlds.h"
#include "book/ring_choice.h"
#include "support/within.h"

using namespace flares;

namespace {

constexpr double floor_share = 0.6;

// How good a choice is.
struct Worth {
  std::size_t taken = 0;
  double least = 0.0;
  std::size_t below = 0;
  std::size_t squares = 0;

  friend bool operator==(const Worth&, const Worth&) = default;
};

// Of rising cells; empty where a gap is not allowed.
std::optional<Worth> worth_of(const book::Ring& ring, const std::vector<std::size_t>& cells, double need) {
  Worth worth{cells.size(), std::numeric_limits<double>::infinity(), 0, 0};
  const std::size_t size = ring.open.size();
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const std::size_t from = cells[i], to = i + 1 < cells.size() ? cells[i + 1] : cells.front() + size;
    std::size_t bare = 0;
    for (std::size_t cell = from + 1; cell <= to; ++cell) bare += ring.open[cell % size] ? 1 : 0;
    if (!ring.open[from] || (cells.size() > 1 && (to - from < ring.least_gap || bare > ring.most_open))) return std::nullopt;
    worth.least = std::min(worth.least, ring.worth[from]);
    worth.below += ring.worth[from] < need ? 1 : 0;
    worth.squares += (to - from) * (to - from);
  }
  return worth;
}

void try_all(const book::Ring& ring, std::vector<std::size_t>& cells, std::size_t count, double need, std::vector<Worth>& all) {
  if (!cells.empty())
    if (const auto worth = worth_of(ring, cells, need)) all.push_back(*worth);
  if (cells.size() == count) return;
  for (std::size_t cell = cells.empty() ? 0 : cells.back() + 1; cell < ring.open.size(); ++cell) {
    cells.push_back(cell);
    try_all(ring, cells, count, need, all);
    cells.pop_back();
  }
}

struct Best {
  Worth worth;
  double reachable = 0.0;
};

// By the rules of book/ring_choice.h, one after the other, over every choice there is.
std::optional<Best> best_of(const book::Ring& ring, std::size_t count, double need, double floor) {
  std::vector<Worth> all;
  std::vector<std::size_t> cells;
  try_all(ring, cells, count, need, all);
  if (all.empty()) return std::nullopt;
  const auto keep = [&](auto figure, auto best) {
    auto kept = figure(all.front());
    for (const Worth& worth : all) kept = best(kept, figure(worth));
    std::erase_if(all, [&](const Worth& worth) { return figure(worth) != kept; });
  };
  const auto largest = [](auto a, auto b) { return std::max(a, b); };
  const auto smallest = [](auto a, auto b) { return std::min(a, b); };
  keep([](const Worth& worth) { return worth.taken; }, largest);
  const double reachable = std::ranges::max(all, {}, &Worth::least).least;
  keep([&](const Worth& worth) { return std::min(worth.least, floor); }, largest);
  keep([](const Worth& worth) { return worth.below; }, smallest);
  keep([](const Worth& worth) { return worth.least; }, largest);
  keep([](const Worth& worth) { return worth.squares; }, smallest);
  return Best{all.front(), reachable};
}

// Up to 60 cm in cells of 2 cm; worths of few levels, so that ties are common.
book::Ring small_ring(Dice& dice) {
  book::Ring ring;
  const int cells = dice.whole(6, 30);
  for (int i = 0; i < cells; ++i) {
    ring.open.push_back(!dice.one_in(4));
    ring.worth.push_back(0.2 * dice.whole(0, 12));
  }
  ring.least_gap = static_cast<std::size_t>(dice.whole(1, 5));
  ring.most_open = 2 * ring.least_gap + static_cast<std::size_t>(dice.whole(0, 8));
  return ring;
}

}  // namespace

TEST_SUITE("book") {
  TEST_CASE("on rings of up to thirty cells the choice is as good as the best of all choices") {
    int fewer = 0, broken = 0;
    for (unsigned number = 0; number < 1500; ++number) {
      CAPTURE(number);
      Dice dice{number};
      const book::Ring ring = small_ring(dice);
      const auto count = static_cast<std::size_t>(dice.whole(1, 4));
      const auto best = best_of(ring, count, 1.0, floor_share);
      const auto choice = book::choose(ring, count, 1.0, floor_share);
      REQUIRE(choice.has_value() == best.has_value());
      if (!choice) continue;
      const auto own = worth_of(ring, choice->cells, 1.0);
      REQUIRE(own.has_value());
      CHECK(*own == best->worth);
      CHECK(choice->reachable == best->reachable);
      CHECK(own->least == choice->least);
      CHECK(own->below == choice->below);
      fewer += own->taken < count ? 1 : 0;
      broken += own->below > 0 ? 1 : 0;
    }
    CHECK(fewer > 50);
    CHECK(broken > 50);
  }

  TEST_CASE("on rings of up to thirty cells no choice holds more clear cells than are told") {
    for (unsigned number = 0; number < 500; ++number) {
      CAPTURE(number);
      Dice dice{number};
      book::Ring ring = small_ring(dice);
      if (ring.least_gap < 3) continue;  // or there are too many choices to try
      for (std::size_t i = 0; i < ring.open.size(); ++i) ring.open[i] = ring.open[i] && ring.worth[i] >= 1.0;
      ring.most_open = ring.open.size();
      const auto best = best_of(ring, 5, 1.0, floor_share);
      CHECK(std::min<std::size_t>(5, book::most_clear(ring, 1.0)) == (best ? best->worth.taken : 0));
    }
  }

  TEST_CASE("on a flare of up to 60 cm no set of places on the grid is further from the old ports") {
    for (unsigned number = 0; number < 40; ++number) {
      CAPTURE(number);
      Dice dice{number};
      World made;
      made.wish = {dice.between(20.0, 34.0), dice.whole(1, 3), dice.one_in(2) ? level : book::HeightRange{5.0, 8.0}};
      for (int i = dice.whole(1, 6); i > 0; --i) made.record.old_ports.push_back(old_port(dice, made.wish.flare_cm));
      if (dice.one_in(2)) made.record.bad.push_back({dice.between(0.0, 10.0), dice.between(10.0, 14.0), {}});
      const auto found = placed(made);
      if (static_cast<int>(found.places.size()) < made.wish.ports) continue;

      // The same grid, its distances by the definition alone.
      book::Ring ring;
      const double cells_around = std::ceil(made.wish.flare_cm / book::finest_cell_cm);
      for (int cell = 0; cell < static_cast<int>(cells_around); ++cell) {
        const double at = cell * made.wish.flare_cm / cells_around;
        ring.open.push_back(!on_bad(at, made));
        double best_share = 0.0;
        for (double height = made.wish.heights.low_cm; height <= made.wish.heights.high_cm + 1e-9; height += 1.0)
          best_share = std::max(best_share, least_share({at, height, {}}, made));
        ring.worth.push_back(best_share);
      }
      const double even = cells_around / made.wish.ports;
      ring.least_gap = static_cast<std::size_t>(std::ceil(rules.least_gap_share * even));
      ring.most_open = static_cast<std::size_t>(std::floor(rules.most_gap_share * even));
      const auto best = best_of(ring, static_cast<std::size_t>(made.wish.ports), 1.0, rules.floor_share);
      REQUIRE(best.has_value());
      CHECK(*found.least_share == within(best->worth.least, 2e-6));
    }
  }
}
