// The weather of a day in the few figures that a person would ask for.
#pragma once
#include <optional>

#include "days/crown_water.h"
#include "days/frame.h"
#include "days/practice.h"

namespace days {

// Of the control run; cloud and gusts are empty where no hour of the day has them.
struct Conditions {
  double rew = 0.0;  // at the start
  double vpd_kpa_max = 0.0;
  std::optional<double> cloud_pct_mean;  // by daylight
  double rain_7d_mm = 0.0;               // in the week before the day
  double rain_today_mm = 0.0;
  double wet_leaf_h = 0.0;  // hours of daylight with a wet crown
  double temp_max_c = 0.0;
  std::optional<double> gust_max_m_s;
};

// `start`: the outlook's hour in which the valves open.
[[nodiscard]] Conditions conditions(const Outlook& outlook, const Frame& frame, const CrownWater& crown, const HoldLimits& limits,
                                    std::size_t start);

}  // namespace days
