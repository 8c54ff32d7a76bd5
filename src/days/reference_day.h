// A tree's reference good day: its own sun and season under the weather that crews call good. Reasons are told against it.
#pragma once
#include <span>
#include <vector>

#include "days/practice.h"
#include "units/site.h"
#include "units/time.h"
#include "uptake/hour.h"

namespace days {

// Hours of a kind of day, one for each of `count` hours from `first_begins`, at a place; dry leaves, full crown, soil well known.
[[nodiscard]] std::vector<uptake::HourWeather> day_of_kind(const DayKind& kind, const units::Site& site, units::UtcTime first_begins,
                                                           std::size_t count);

// Hours of the central tree for the dose, at most 24, over `weather` with dry leaves at first; valves open `start_h` after the first hour.
[[nodiscard]] double reference_hours(const uptake::Subject& subject, const soil::RewCurve& curve,
                                     std::span<const uptake::HourWeather> weather, double start_h);

}  // namespace days
