// US National Weather Service, /stations/{id}/observations and .../observations/latest: what a station measured, as an hourly record.
//
// - Reports come in any order, and several an hour: five-minute ones without the coded text (rawMessage), which lack fields, and special
//   ones, which repeat the rain of the running hour. One regular report speaks for an hour. It is given the full hour that it precedes
//   (that of :53 is the hour's end, as observers have it) and must come within 20 minutes before it. Regular is the minute at which most of
//   those reports come (the later of two); a report more than five minutes from it is left out. Of two alike, the one that says more.
// - rain is precipitationLastHour, the sum of the hour that the report ends; sums of 3 and 6 hours are not read. Gusts are of ten minutes
//   before a report and may miss the hour's highest.
// - Units have drifted (unit:, wmoUnit:; rain in m, later in mm; wind in m/s, later in km/h): each figure says its own.
// - null is missing, not 0. So is a figure marked X or Q by qualityControl (failed, questioned), and, with a warning, one that is not
//   weather (outside weather::traits): nobody here can mend a station's record.
// - barometricPressure is the altimeter setting (that of a recording is its report's A group), brought to the station's elevation
// (feeds/sea_level.h); without an
//   elevation it is left out. Cloud layers are not read.
// The service keeps about a week (from memory): for a soil's past this is to be fetched and kept day by day.
#pragma once
#include <string>
#include <string_view>

#include "feeds/read.h"

namespace feeds {

// One record of the full hours from the first to the last that a regular report gives. Of `options`, `now` and `elevation` count. Faults:
// those of parse_reply; neither a list of reports nor one; more than 20,000; reports of two stations; a report without a time; an unknown
// unit; no regular report with a figure in it.
[[nodiscard]] units::Result<weather::Forecast> read_nws_observations(const std::string& name, std::string_view content,
                                                                     const ReadOptions& options);

}  // namespace feeds
