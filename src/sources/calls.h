// The calls that bring a cell's weather: addresses with every parameter stated, so that a service's defaults never matter.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "net/fetcher.h"
#include "sources/cell.h"
#include "units/time.h"

namespace sources {

// `base`: the service's address without a closing slash.
// Open-Meteo: fifteen days ahead and `past_days` (0..92) back, soil by the layers that US models really have; in Unix time, UTC, SI.
[[nodiscard]] net::Want open_meteo_forecast(const std::string& base, const CellSite& cell, int past_days);
// Members for the next ten days: temperature, dew point, rain, cloud, radiation, wind.
[[nodiscard]] net::Want open_meteo_ensemble(const std::string& base, const CellSite& cell);
// Hours of [from, until] that have passed, from the reanalysis archive.
[[nodiscard]] net::Want open_meteo_archive(const std::string& base, const CellSite& cell, units::LocalDay from, units::LocalDay until);
[[nodiscard]] net::Want place_names(const std::string& base, std::string_view name);

[[nodiscard]] net::Want met_norway_forecast(const std::string& base, const CellSite& cell);

// The National Weather Service tells by place which grid it keeps; grid and stations are then fetched from the addresses it gives.
[[nodiscard]] net::Want nws_points(const std::string& base, const Cell& cell);
[[nodiscard]] net::Want nws_grid(const std::string& address);
[[nodiscard]] net::Want nws_stations(const std::string& address);
[[nodiscard]] net::Want nws_alerts(const std::string& base, const Cell& cell);
// From the beginning of a UTC day on, so that the same address serves a whole day.
[[nodiscard]] net::Want nws_observations(const std::string& base, const std::string& station, units::UtcTime from);

// NCEI: the stations around a cell that report rain, and their daily figures.
[[nodiscard]] net::Want rain_stations(const std::string& base, const Cell& cell, units::LocalDay from, units::LocalDay until);
[[nodiscard]] net::Want daily_rain(const std::string& base, const std::string& station, units::LocalDay from, units::LocalDay until);

}  // namespace sources
