// Station CSV: hourly rows that a weather station, a gauge or a spreadsheet wrote.
//
// Header, any order: time_utc, temp_c and one of rh_pct or dew_point_c; also rain_mm, shortwave_w_m2, cloud_pct, wind_m_s, wind_gust_m_s,
// pressure_kpa (at the station), soil_moisture_m3_m3. Empty is missing. time_utc is YYYY-MM-DDTHH:MM with Z, an offset or nothing (the name
// says UTC), on the full hour, rising. Labels END their hour; with ReadOptions::labels_start_hour a row moves, whole, to the end of its
// hour. Soil moisture comes without a depth: it is taken as the mean of the top 30 cm, where most probes sit (common practice, no published
// source).
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "feeds/read.h"

namespace feeds {

[[nodiscard]] units::Result<std::vector<weather::Forecast>> read_station_csv(const std::string& name, std::string_view content,
                                                                             const ReadOptions& options);

}  // namespace feeds
