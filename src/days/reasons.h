// Why a day is slower or faster than the tree's reference good day: the difference in hours, shared among six factors.
// Each gets its Shapley value (days/shapley.h) of the game "these factors as on the day, the others as on the good day", so that the shares
// add up whatever the interplay of factors. docs/model/days.md (19), (20).
#pragma once
#include <span>
#include <vector>

#include "units/lanes.h"
#include "uptake/hour.h"

namespace days {

enum class Factor { soil_water, dryness, sky, wet_leaves, temperature, leaf_state };
inline constexpr int factor_count = 6;

struct Reason {
  Factor factor;
  double hours;  // that the day's own state of this factor costs; negative: it helps
};

struct Reasons {
  double hours = 0.0;            // for the dose on this day: mean over the draws, each at most 24
  double reference_hours = 0.0;  // on the reference day
  // All six, largest effect first; they sum to hours - reference_hours. A factor alike on both days has exactly 0.
  std::vector<Reason> by_factor;
};

// `day` and `reference` hour by hour over the same clock; valves open `start_h` after the first hour, 4 or more, so that the tree has come
// to rest from whatever it is taken to begin with. `wet_mm` on the leaves at first counts as wet leaves; the reference day is dry.
// `draws` are the few trees that stand for all. What is no factor is on both sides as on the day: air pressure, clear-sky radiation, and
// how well the soil is known.
[[nodiscard]] Reasons reasons(const uptake::Subject& subject, const soil::RewCurve& curve, const uptake::Draw<units::Lanes>& draws,
                              std::span<const uptake::HourWeather> day, std::span<const uptake::HourWeather> reference, double wet_mm,
                              double start_h);

}  // namespace days
