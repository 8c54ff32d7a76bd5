// Days of a rain gauge and a pair of extreme thermometers as hours, for weeks of which nothing finer is known.
#pragma once
#include <optional>
#include <span>

#include "units/time.h"
#include "weather/series.h"

namespace weather {

// One local day as an observer writes it down.
struct DayRecord {
  units::LocalDay day;
  std::optional<double> rain_mm;
  std::optional<double> temp_max_c, temp_min_c;
};

// The hours of `days` (rising, at least one), all marked `derived`. Rain spreads evenly over its day. Where both extremes are known,
// temperature runs as a cosine with its top at three in the afternoon (local clock), and the dew point is the day's minimum (FAO-56 eq. 48
// and box 6: true where the ground is not dry). Days between that were not recorded stay missing.
[[nodiscard]] Series hours_of(std::span<const DayRecord> days, const units::ZoneOffsets& zone);

// What somebody read off a gauge at the site: in each hour of a day with a stated amount the series' own rain is scaled so that the day
// adds up to it; where the series has none (or no rain), it spreads evenly. Marked `observed`. Days outside the series are left out.
void lay_gauge_over(Series& series, std::span<const DayRecord> days, const units::ZoneOffsets& zone);

}  // namespace weather
