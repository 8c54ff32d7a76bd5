// From a weather series to a complete hourly record of the air: what is missing is derived where physics allows, and every
// number says which it is. Hour conventions are those of weather/variable.h: temperature, humidity, wind and pressure are the
// instants AT the label; radiation and evapotranspiration belong to the hour the label ends. Nothing is averaged: an hour's
// evapotranspiration follows from its own row.
#pragma once
#include <cstddef>
#include <cstdint>
#include <vector>

#include "units/quantity.h"
#include "units/site.h"
#include "units/time.h"
#include "weather/series.h"

namespace air {

struct HoursOptions {
  units::Metres wind_height{10.0};  // of the series' wind; at least 0.5 m
  bool elevation_known = true;      // otherwise the site's elevation is not read and 300 m stands for it
};

enum class ShortwaveSource : std::uint8_t {
  missing,
  provided,    // by the series
  from_cloud,  // clear sky x the transmission of the row's cloud (Kasten & Czeplak 1980)
  sun_down,    // zero because the sun is below the horizon all hour
};

// Columns of one length. Values computed here are Provenance::derived; values taken over keep their own.
struct AirHours {
  units::UtcHour first_label{};
  weather::Column temp_c;
  weather::Column rh_pct;        // the series' own, else from its dew point; missing where that is over 2 C above temp_c
  weather::Column dew_point_c;   // follows rh_pct where the series has humidity, so the two never disagree
  weather::Column vpd_kpa;       // >= 0
  weather::Column pressure_kpa;  // the series' own, else FAO-56 eq. 7; never missing
  weather::Column wind_2m_m_s;   // by FAO-56 eq. 47; where the series has none 2 m/s, derived; never missing
  weather::Column shortwave_w_m2;
  std::vector<ShortwaveSource> shortwave_source;
  weather::Column clear_sky_w_m2;  // FAO-56 eq. 37 on eq. 28; never missing
  weather::Column net_radiation_mj_m2_h;
  weather::Column et0_fao56_mm_h;  // FAO-56 eq. 53
  weather::Column et0_asce_short_mm_h;
  weather::Column et0_asce_tall_mm_h;

  [[nodiscard]] std::size_t hours() const { return temp_c.size(); }
  [[nodiscard]] units::UtcHour label(std::size_t hour) const { return first_label + std::chrono::hours{static_cast<long>(hour)}; }
};

// Works alike on a control run and on members; an empty series gives an empty record. Net radiation and evapotranspiration need
// temperature, humidity and shortwave of the hour and are missing otherwise.
//
// Cloudiness for the longwave term is Rs/Rso of the hour itself while the sun stands 0.3 rad or more above the horizon at
// mid-hour; lower and at night the last such ratio is kept (ASCE-EWRI 2005, hourly calculation; FAO-56 chapter 4 takes the hour
// 2-3 h before sunset, to the same end). Where the noon sun itself stays below 0.4 rad, hours above three quarters of its
// noon elevation count instead (ours). Before the first such hour its ratio is used backwards; with none at all 0.6, between
// the 0.4-0.6 and 0.7-0.8 that FAO-56 names for humid and dry climates.
[[nodiscard]] AirHours complete(const weather::Series& series, const units::Site& site, const HoursOptions& options = {});

}  // namespace air
