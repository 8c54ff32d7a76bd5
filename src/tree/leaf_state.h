// When leaves are out: thermal time to leaf-out, a month of expansion, colouring when days shorten. docs/model/tree.md, "Leaves".
// For temperate deciduous trees of either hemisphere, outside the tropics and polar circles. Low confidence: the crew's own
// "full leaf seen on" overrides thermal time.
#pragma once
#include <optional>
#include <vector>

#include "tree/parameters.h"
#include "units/quantity.h"
#include "units/time.h"

namespace tree {

enum class LeafStage { bare, expanding, full, colouring };

struct LeafState {
  LeafStage stage = LeafStage::bare;
  double share = 0.0;  // 0..1 of the full crown's leaves
};

// Daily mean air temperatures, oldest first, not empty. They need not reach back to midwinter: the mean of the first two weeks,
// carried back along a yearly wave of LeafCalendar::season_amplitude_c with its top three weeks after midsummer, stands in.
struct DailyTemperatures {
  units::LocalDay first_day;
  std::vector<double> mean_c;
};

// Leaf state on `day`, which lies within `temperatures` or after them. `full_leaf_seen`: the crew saw full leaf on that day of
// this season; a later day than `day` is ignored.
[[nodiscard]] LeafState leaf_state(const LeafCalendar& calendar, units::Degrees latitude, const DailyTemperatures& temperatures,
                                   std::optional<units::LocalDay> full_leaf_seen, units::LocalDay day);

// The day on which leaves begin to colour in the summer after the midwinter that begins `year` (1 January in the north, 1 July in the south): a
// growing season ends there. Empty where days never get that short.
[[nodiscard]] std::optional<units::LocalDay> season_end(const LeafCalendar& calendar, units::Degrees latitude, int year);

}  // namespace tree
