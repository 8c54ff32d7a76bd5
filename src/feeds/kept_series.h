// The weather that an office keeps of a place from day to day, as text: every value with where it came from. Our own shape, CSV so that a
// person can look at it: a first line that names the shape, a header, an hour a line, and a last line that shows that nothing is cut off.
#pragma once
#include <string>
#include <string_view>

#include "units/fault.h"
#include "weather/series.h"

namespace feeds {

// Values are shortest round-trip numbers with a letter behind: o observed, a analysed, f forecast, i filled in between, d derived. Empty is
// missing. read_kept(write_kept(series)) gives the series back to the bit.
[[nodiscard]] std::string write_kept(const weather::Series& series);

// Faults as "kept.csv:4: temp_c": another shape or version, a cut-off end, a column that is not ours, a value without its letter or outside
// weather::traits, times that do not rise by one hour, more than ten years. Never throws.
[[nodiscard]] units::Result<weather::Series> read_kept(const std::string& name, std::string_view content);

}  // namespace feeds
