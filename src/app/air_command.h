// `sapdraw air`: how dry the air is, for one state or hour by hour for a weather file.
#pragma once
#include <optional>

#include "app/outcome.h"
#include "app/request.h"

namespace app {

struct AirRequest {
  std::optional<double> temp_c, rh_pct;  // one state; otherwise `weather` holds a file
  double pressure_kpa = 101.3;
  WeatherRequest weather;
};

// One state as text, JSON or CSV, with its vapour pressures by FAO-56. Refused: temperature outside -60..60 C, relative humidity
// outside 0..100 % (0 itself is no air), pressure outside 40..110 kPa.
// A weather file as CSV (also where text is asked for) or JSON: a row for every hour for which the file gives any variable, before
// `now` too, gaps left open. Its labels END the hour; temperature and humidity are the instants at the label, all else belongs to the
// hour before it. An unknown elevation is told and taken as 300 m.
[[nodiscard]] Outcome air_command(const Common& common, const AirRequest& request);

}  // namespace app
