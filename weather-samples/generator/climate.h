// Days of ordinary weather, for the weeks before a sample's own story begins.
#pragma once
#include <cstdint>
#include <vector>

#include "generator/story.h"

namespace samples {

struct Climate {
  double high_first_c, high_last_c;  // mean daily high at both ends: spring warms up
  double range_c;                    // high minus low of a fair day
  double depression_c;               // high minus dew point of a fair day
  double wet_chance;                 // of a day
  double wet_mm;                     // mean of a wet day
  double wind_m_s;
  double spread_c = 2.6;  // standard deviation of a day's high about its mean
};

[[nodiscard]] std::vector<Day> ordinary_days(const Climate& climate, int count, std::uint64_t seed);

}  // namespace samples
