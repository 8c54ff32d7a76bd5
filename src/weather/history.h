// A forecast with a past: hours that a station recorded, laid in front of and over those that a model only computed.
#pragma once
#include "weather/series.h"

namespace weather {

// True where no hour after `now` has enough weather: a record, not a forecast.
[[nodiscard]] bool is_record(const Forecast& forecast, units::UtcTime now);

// `forecast` from the earlier of both beginnings on. Wherever the record has a value it wins; elsewhere the forecast stands. Where the
// record has temperature and humidity, the model's humidity of that hour goes. Soil layers stay the forecast's; the record's own are
// dropped. The gap between the two, if any, stays a gap.
[[nodiscard]] Series with_record(const Series& forecast, const Series& record);

}  // namespace weather
