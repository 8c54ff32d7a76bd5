// Weather files to forecasts, and the one that speaks for a site.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/outcome.h"
#include "app/request.h"
#include "units/site.h"
#include "weather/alert.h"
#include "weather/series.h"

namespace app {

// Everything that was read: forecasts that look ahead, and records of stations that only look back.
struct WeatherFiles {
  std::vector<weather::Forecast> forecasts;
  std::vector<weather::Forecast> records;
};

// Reads every file; one that is refused is said in `outcome` and the others still serve. Readers' warnings go there too.
[[nodiscard]] WeatherFiles read_weather_files(const WeatherRequest& request, units::UtcTime now, Outcome& outcome);

// The forecast for a site: the nearest, with the nearest record within 25 km (or of no stated place) as its past, short gaps bridged.
struct SiteWeather {
  const weather::Forecast* forecast = nullptr;  // where it came from
  weather::Series control;
  std::vector<weather::Series> members;  // of an ensemble, or the other services' courses
  bool services = false;                 // the latter
  std::vector<weather::Alert> alerts;    // for the site, in force or to come
  bool far = false;                      // beyond 25 km: also a warning
  std::vector<std::string> notes;        // distance, gaps, what a person should know; one line each
};
[[nodiscard]] units::Result<SiteWeather> weather_for(const WeatherFiles& files, const units::Site& site);

// The place that answers are computed for when no tree states one: options win over the file's own place.
struct Place {
  units::Site site;
  bool elevation_known = false;
};
[[nodiscard]] units::Result<Place> place_of(const WeatherRequest& request, const weather::Forecast& forecast, Outcome& outcome);

}  // namespace app
