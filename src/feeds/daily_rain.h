// Daily rain and extremes of one US station from NCEI's keyless Access Data Service, for the weeks before an outlook.
//
// https://www.ncei.noaa.gov/access/services/data/v1?dataset=daily-summaries&stations=USC00000000&startDate=2026-05-01&endDate=2026-07-01
//   &dataTypes=PRCP,TMAX,TMIN&format=json&units=metric&includeAttributes=false
// The reply does not say its units: units=metric must be in the address (mm and C; without it figures come in tenths or in inches).
// Parameters from the service's user documentation (ncei.noaa.gov/support/access-data-service-api-user-documentation); the shape of the
// JSON - a list of objects, every value a text, blanks in front of figures, a missing figure's key left out - from memory.
//
// Whose day it is: at airports (USW...) the local day in standard time; at volunteers' gauges (USC...) the 24 hours that end with the
// observation, often at 7 or 8 in the morning, so that most of a total fell on the day BEFORE the one it is booked under (from memory).
// The reply does not tell the hour: nothing here moves a total.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/fault.h"
#include "units/time.h"

namespace feeds {

struct DailyRain {
  units::LocalDay day;  // as the station books it
  std::optional<double> rain_mm, tmax_c, tmin_c;
};

// Days in rising order; none is an empty list. Missing, null and empty figures are missing, not 0. `name` is how faults call the reply.
// Faults: those of parse_reply; not a list, or more than 40,000 days; no DATE or STATION; two stations; a day twice; rain outside 0..2000
// mm, temperatures outside -90..60 C (which is what figures in tenths or in F soon are).
[[nodiscard]] units::Result<std::vector<DailyRain>> read_daily_rain(const std::string& name, std::string_view content);

}  // namespace feeds
