// What is worth keeping of a place's weather from one day to the next: the past as the best witness saw it.
#pragma once
#include <chrono>

#include "units/time.h"
#include "weather/series.h"

namespace weather {

// Longest past that any of our sciences asks for (soil: 60 to 92 days), and some.
inline constexpr std::chrono::hours longest_kept{24 * 120};

// `kept` with what `fresh` adds. Hours after `now` are the fresh series' alone. For a past hour the better witness has the word: observed
// before analysed, that before derived and filled, a forecast nobody came back to last; of equals the fresh one. Temperature and humidity
// of an hour are one witness's. Soil layers are the fresh series', with the kept past in front where it has the same layers; without any in
// `fresh`, those of `kept`. Nothing older than longest_kept stays.
[[nodiscard]] Series keep(const Series& kept, const Series& fresh, units::UtcTime now);

}  // namespace weather
