// A story told hour by hour: what the invented sky did and will do at one place.
// Instants are read at the label, means, sums and maxima cover the hour that the label ends.
#pragma once
#include <array>
#include <vector>

#include "generator/story.h"

namespace samples {

struct Hour {
  UtcHour label;
  double temp_c, dew_point_c, rh_pct;
  double cloud_pct;
  double wind_m_s, gust_m_s;
  double wind_from_deg;
  double sea_level_hpa, station_hpa;
  double rain_mm;
  bool thunder;
  double rain_chance_pct;
  double shortwave_w_m2;
  // Layers 0-10, 10-40, 40-100 and 100-200 cm.
  std::array<double, 4> soil_m3_m3, soil_c;
};

// Every hour of the story's days; the labels run on across `first` and `now`.
[[nodiscard]] std::vector<Hour> tell(const Story& story);

// The hours labelled from..to, both included.
[[nodiscard]] std::vector<Hour> between(const std::vector<Hour>& hours, UtcHour from, UtcHour to);

}  // namespace samples
