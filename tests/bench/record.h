// An invented hourly record of a temperate place, whole solar days from the sun's midnight on, to time what is done with it.
#pragma once
#include <cstddef>
#include <vector>

#include "units/site.h"
#include "units/time.h"

namespace bench {

struct Record {
  units::Site site;
  units::UtcHour first_label;
  std::vector<double> temp_c, rh_pct, wind_2m_m_s, pressure_kpa, shortwave_w_m2;

  [[nodiscard]] std::size_t hours() const { return temp_c.size(); }
};

// Days of random weather around a daily and a yearly course. `hours` is a multiple of 24.
[[nodiscard]] Record record(std::size_t hours);

}  // namespace bench
