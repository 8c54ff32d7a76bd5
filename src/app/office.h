// The weather an office has for its sites: from its cache and its history, freshened from the services it may ask.
#pragma once
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "app/outcome.h"
#include "app/request.h"
#include "app/weather_files.h"
#include "feeds/geocoding.h"
#include "net/fetcher.h"
#include "net/machine.h"
#include "settings/places.h"
#include "settings/settings.h"
#include "sources/gather.h"

namespace app {

// What the machine lends to commands that go out: only src/cli makes one.
struct Surroundings {
  settings::Environment environment;
  net::Machine machine;
  std::string version;                                    // of sapdraw, for the services
  std::ostream* out = nullptr;                            // for messages whose road is standard output
  std::function<void(const net::Progress&)> on_progress;  // may be empty
  std::function<void(double share)> on_search;            // of the time that a plan is searched for; may be empty
};

struct OfficeRequest {
  std::optional<std::filesystem::path> config, history, cache;
  bool offline = false;     // asks nobody
  bool tell_calls = false;  // a line a call on stderr
};

struct OfficeWeather {
  std::vector<sources::CellWeather> cells;
  sources::Chosen chosen;
  std::vector<net::Spent> spent;  // by service that was asked

  [[nodiscard]] const sources::CellWeather* of(const units::Site& site) const;
};

// A line for each warning, and one for each service that failed, however many places it failed for.
void tell_troubles(const OfficeWeather& office, Outcome& outcome);

// Freshens and reads the weather of `sites`. Empty where settings, places or keys are refused, with the line in `outcome`.
[[nodiscard]] std::optional<OfficeWeather> office_weather(const Common& common, const OfficeRequest& request,
                                                          const std::vector<sources::PlacedSite>& sites, Outcome& outcome);

// Places of a name. Empty where nobody may be asked or answers, with the line in `outcome`.
[[nodiscard]] std::optional<std::vector<feeds::PlaceName>> office_places(const Common& common, const OfficeRequest& request,
                                                                         const std::string& name, Outcome& outcome);

// Hours of a site's past from Open-Meteo's archive, both days included. Empty likewise.
[[nodiscard]] std::optional<weather::Forecast> office_past(const Common& common, const OfficeRequest& request,
                                                           const sources::PlacedSite& site, units::LocalDay from, units::LocalDay until,
                                                           Outcome& outcome);

}  // namespace app
