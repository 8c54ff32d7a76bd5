// `weather`: brings the forecasts and the past of all sites into the office's cache, and shows what is there.
#pragma once
#include <filesystem>
#include <string>

#include "app/office.h"
#include "app/outcome.h"
#include "app/request.h"

namespace app {

struct WeatherRefreshRequest {
  OfficeRequest office;
  std::filesystem::path trees;  // whose places are the sites
};

// Asks what is not fresh and says what came of it. Exit 4 only where a site is left without any usable weather.
[[nodiscard]] Outcome weather_command(const Common& common, const WeatherRefreshRequest& request);

struct WeatherShowRequest {
  OfficeRequest office;  // asks nobody: what is kept is shown
  std::filesystem::path trees;
  std::string tree;  // an id
};

// One site: who said what and how long ago, the past by kind, warnings in force, and the coming days.
[[nodiscard]] Outcome weather_show_command(const Common& common, const WeatherShowRequest& request);

struct PlaceNameRequest {
  OfficeRequest office;
  std::string name;
};

// Places of a name, with what a tree list needs of them: latitude, longitude, elevation, zone.
[[nodiscard]] Outcome weather_find_command(const Common& common, const PlaceNameRequest& request);

struct WeatherPastRequest {
  OfficeRequest office;
  std::filesystem::path trees;
  std::string tree;
  std::string from, until;  // days, both included
};

// What the weather was at a tree: hours as station CSV, which every `--weather` takes, for jobs that are over.
[[nodiscard]] Outcome weather_past_command(const Common& common, const WeatherPastRequest& request);

}  // namespace app
