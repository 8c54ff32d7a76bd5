// A tree's reference good day: its own sun and season under the weather that crews call good. Reasons are told against it.
#pragma once
#include <vector>

#include "units/site.h"
#include "units/time.h"
#include "uptake/hour.h"

namespace days {

// One kind of day: a yearless daily course. Temperature runs as a cosine with its top three hours after solar noon; the air's water
// stays the same all day.
struct DayKind {
  double temp_low_c = 0.0, temp_high_c = 0.0;
  double rh_at_high_pct = 0.0;  // sets the day's dew point
  double cloud = 0.0;           // 0..1
  double rew = 0.0;
  double soil_temp_c = 0.0;
};

// Hours of such a day, one for each of `count` hours from `first_begins`, at a place; dry leaves, full crown, soil well known.
[[nodiscard]] std::vector<uptake::HourWeather> day_of_kind(const DayKind& kind, const units::Site& site, units::UtcTime first_begins,
                                                           std::size_t count);

}  // namespace days
