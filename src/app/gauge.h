// A gauge at the site has the last word on past rain, whoever modelled it.
#pragma once
#include <filesystem>
#include <vector>

#include "app/weather_files.h"
#include "feeds/gauge_csv.h"
#include "units/time.h"

namespace app {

[[nodiscard]] units::Result<std::vector<feeds::GaugeDay>> read_gauge_file(const std::filesystem::path& path);

// Lays days that are over by `now` over the weather, of the nearest gauge within 25 km or of one that states no place; a note tells of it.
void lay_gauge_over(const std::vector<feeds::GaugeDay>& gauge, const units::Site& site, const units::ZoneOffsets& zone, units::UtcTime now,
                    SiteWeather& weather);

}  // namespace app
