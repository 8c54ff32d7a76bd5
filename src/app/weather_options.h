// The place and wind height that a person gives with a weather file.
#pragma once
#include "app/request.h"
#include "units/fault.h"

namespace app {

// Fault (where = the option): latitude outside -90..90, longitude outside -180..180, one without the other, elevation outside
// -430..9000 m, wind measured below 0.5 m or above 200 m.
[[nodiscard]] units::Result<void> check(const WeatherRequest& request);

}  // namespace app
