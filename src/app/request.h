// What every command is asked with; src/cli fills it from the command line and is the only place that knows clock and machine.
#pragma once
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "params/models.h"
#include "units/time.h"
#include "units/unit_system.h"

namespace app {

using units::UnitSystem;
enum class Format { text, json, csv };

struct Surroundings;  // app/office.h

struct Common {
  params::Models models;
  units::UtcTime now;
  UnitSystem units = UnitSystem::us;
  Format format = Format::text;
  std::uint64_t seed = 1;
  std::size_t threads = 1;                          // any number gives the same answers
  bool colour = false;                              // stdout is a terminal that wants it
  std::optional<std::string> book = {}, by = {};    // where the book lies, who makes a change: as given, else the machine's
  std::shared_ptr<const Surroundings> around = {};  // for commands that go out to the weather services
};

// Weather files as given, and the place that wins over the files' own.
struct WeatherRequest {
  std::vector<std::filesystem::path> files;
  bool labels_start_hour = false;
  std::optional<double> wind_height_m;
  std::optional<double> latitude_deg, longitude_deg, elevation_m;
};

}  // namespace app
