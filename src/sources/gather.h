// The weather of every cell, from whichever services the office may ask and from what it kept. docs/weather-services.md.
#pragma once
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "net/cache.h"
#include "net/fetcher.h"
#include "settings/settings.h"
#include "sources/catalogue.h"
#include "sources/cell.h"
#include "sources/history.h"
#include "units/time.h"
#include "weather/alert.h"
#include "weather/series.h"

namespace sources {

// How one service did for one cell.
struct Told {
  std::string service;  // as in settings/settings.h
  std::string what;     // "forecast", "alerts", "station KMSP", "daily rain"
  net::Came came = net::Came::failed;
  units::UtcTime fetched_at{};  // of the reply that serves; the epoch where none does
  std::string failure;          // one line; empty where all went well
};

struct CellWeather {
  CellSite cell;
  // By trust, with source, credit and issue; past and future hours as the service gave them. A service that dates nothing is dated by when
  // it was asked. Old ones stand behind fresh ones whatever their trust.
  std::vector<weather::Forecast> forecasts;
  std::optional<weather::Forecast> ensemble;
  weather::Series kept;                // the past, the newest replies and the station's hours included
  std::vector<weather::Alert> alerts;  // in force or still to come
  bool alerts_known = false;           // a reply no older than an hour said so
  std::vector<Told> told;
  std::vector<std::string> warnings;
};

// What gathering works with. `limit` is the age from which a forecast gives way to any fresher one.
struct Means {
  net::Fetcher& fetcher;
  const net::Cache& cache;
  const History& history;
  const settings::Settings& settings;
  Chosen chosen;
  std::optional<net::KeyHeader> open_meteo_key;
  std::chrono::hours limit;
};

using OnProgress = std::function<void(const net::Progress&)>;

// Asks what is not fresh, each address once, and writes the history. Cells come back in the order given, whatever failed.
[[nodiscard]] std::vector<CellWeather> gather(const std::vector<CellSite>& cells, const Means& means, units::UtcTime now,
                                              const OnProgress& progress = {});

}  // namespace sources
