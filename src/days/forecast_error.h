// How far the weather of a day may lie from its forecast: growing with lead time, going together from day to day, temperature with
// dew point. Sources and confidence in models/weather-error.json.
#pragma once
#include <cstdint>
#include <vector>

#include "days/outlook.h"
#include "days/practice.h"
#include "uptake/ensemble.h"

namespace days {

// Standard deviation at `lead_d` days: linear between the table's points, flat outside them.
[[nodiscard]] double at_lead(const ErrorGrowth& growth, double lead_d);

// Scenarios for `blocks` blocks of draws over hours [from, until) of the outlook. With a single course every draw gets its own error,
// the same for every tree and start (seeded by `seed`, draw and day); members of an ensemble stay as they are.
[[nodiscard]] std::vector<uptake::Scenario> scenarios(const Outlook& outlook, const WeatherError& error, std::size_t from,
                                                      std::size_t until, std::size_t blocks, std::uint64_t seed);

}  // namespace days
