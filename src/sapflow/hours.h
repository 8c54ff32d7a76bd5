// The weather of a stand, hour by hour, as its demand for water reads it. Columns of one length; hours end at their label.
#pragma once
#include <cstddef>
#include <vector>

namespace sapflow {

struct Hours {
  std::vector<bool> known;  // false: the other columns mean nothing in this hour
  std::vector<double> temp_c;
  std::vector<double> vpd_kpa;
  std::vector<double> shortwave_w_m2;
  std::vector<double> net_radiation_w_m2;
  std::vector<double> psychrometric_kpa_c;
  std::vector<double> rew;      // relative extractable water of the root zone
  std::vector<long> solar_day;  // counts days of local mean solar time; rising
  [[nodiscard]] std::size_t size() const { return known.size(); }
};

// A measured hour.
struct Sample {
  std::size_t hour;  // index into Hours
  double flow;       // relative: about 1 on the stand's best hours, never below 0
};

}  // namespace sapflow
