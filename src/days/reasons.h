// Why a day is slower or faster than the tree's reference good day: hours by factor, each found by putting that one factor right and
// running the tree again (the central draw). The shares of several factors need not add up to the whole difference.
#pragma once
#include <span>
#include <vector>

#include "days/reference_day.h"
#include "uptake/plant.h"

namespace days {

enum class Factor { soil_water, dryness, sky, wet_leaves, temperature, leaf_state };

struct Reason {
  Factor factor;
  double hours;  // that the day's own state of this factor costs; negative: it helps
};

struct Reasons {
  double hours = 0.0;             // the central tree's hours for the dose on this day, at most 24
  double reference_hours = 0.0;   // on the reference day
  std::vector<Reason> by_factor;  // largest effect first
};

// Hours of the central tree for the dose, at most 24, over `weather` with dry leaves at first.
[[nodiscard]] double reference_hours(const uptake::Subject& subject, const soil::RewCurve& curve,
                                     std::span<const uptake::HourWeather> weather, double start_h);

// `day` and `reference` hour by hour over the same clock; valves open `start_h` after the first hour. `wet_mm` on the leaves at first.
[[nodiscard]] Reasons reasons(const uptake::Subject& subject, const soil::RewCurve& curve, std::span<const uptake::HourWeather> day,
                              std::span<const uptake::HourWeather> reference, double wet_mm, double start_h);

}  // namespace days
