// Any weather file or reply to forecasts: the four shapes are told apart by content, never by name.
// Nothing here opens a file or a connection: the caller hands over the bytes and says what they are called.
// What each shape means and which traps are handled: docs/weather-services.md.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feeds/reply.h"
#include "units/fault.h"
#include "units/site.h"
#include "units/time.h"
#include "weather/series.h"

namespace feeds {

struct ReadOptions {
  // Splits analysed from forecast hours of a model, and observed from forecast rows of a station: a label at or before `now` is past.
  units::UtcTime now{};
  // Station CSV only: its labels start the hour they describe instead of ending it.
  bool labels_start_hour = false;
  // The caller's own place: a station CSV, which states none, takes it; elsewhere the source's own stays in Forecast::place.
  std::optional<units::Site> place = {};
  // The caller's own elevation of the site, where it is known: wins over the source's wherever sea-level pressure is brought to the site.
  std::optional<units::Metres> elevation = {};
};

// Reads Open-Meteo forecast, archive and ensemble JSON (one place or an array of places), NWS raw grid GeoJSON,
// MET Norway locationforecast JSON (the reply body) and station CSV. `name` is how faults call the input ("rain.csv").
// One forecast a place, in the order of the input, at least one. Values are in the units of weather/variable.h, times are UTC;
// null and empty are missing; gaps are left as they are (weather/gaps.h bridges them).
// Faults, as "name: path" or "name:line: column": not one of the four shapes, broken or cut off, a service's own error (its reason quoted),
// a unit that is not known, a value outside weather::traits, no temperature, times that do not rise.
// Never throws and never crashes on any bytes.
[[nodiscard]] units::Result<std::vector<weather::Forecast>> read_weather(const std::string& name, std::string_view content,
                                                                         const ReadOptions& options);

}  // namespace feeds
