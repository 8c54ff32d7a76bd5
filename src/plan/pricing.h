// The best stops for one crew's day under given prices: exact, by a walk through all sets of up to four stops that bounds cut short.
#pragma once
#include <cstdint>
#include <vector>

#include "plan/prices.h"

namespace plan {

struct Offer {
  double margin = 0.0;  // Prices::margin of the column
  Column column;
};

struct Wanted {
  double above = 0.0;       // only margins above this count
  std::size_t most = 1;     // the best so many
  std::uint64_t steps = 0;  // sets to look at before giving up; 0: no limit
  // Also sets that would be better without one of their stops: never the best, but a plan may need them.
  bool worse_too = false;
};

struct Offers {
  std::vector<Offer> best;  // falling margins
  bool complete = true;     // false: the walk gave up, and something better may be left
};

[[nodiscard]] Offers price_slot(const Ground& ground, int slot, const Prices& prices, const Wanted& wanted);

}  // namespace plan
