#include "sapflow/invented_stand.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sapflow/fit.h"

namespace invented {

sapflow::Hours hours(int days) {
  sapflow::Hours all;
  for (int day = 0; day < days; ++day) {
    const double sunny = 0.5 + 0.5 * std::sin(1.7 * day), warm = 20.0 + 6.0 * std::sin(0.31 * day),
                 dry = 0.6 + 0.4 * std::sin(0.9 * day + 1.0);
    for (int hour = 0; hour < 24; ++hour) {
      const double sun = std::max(0.0, std::sin(std::numbers::pi * (hour - 5.0) / 15.0));
      const double shortwave = hour > 5 && hour < 20 ? 900.0 * sun * (0.2 + 0.8 * sunny) : 0.0;
      all.known.push_back(true);
      all.temp_c.push_back(warm + 6.0 * std::sin(std::numbers::pi * (hour - 9.0) / 12.0));
      all.vpd_kpa.push_back(dry * (0.3 + 2.5 * sun * sunny));
      all.shortwave_w_m2.push_back(shortwave);
      all.net_radiation_w_m2.push_back(0.7 * shortwave - 40.0);
      all.psychrometric_kpa_c.push_back(0.066);
      all.rew.push_back(std::clamp(1.0 - 0.05 * (day % 20), 0.0, 1.0));
      all.solar_day.push_back(day);
    }
  }
  return all;
}

sapflow::Demand medians() { return sapflow::before_record(shipped::models().sapflow.priors); }

std::vector<double> flow(const sapflow::Hours& hours, const sapflow::Demand& demand, const sapflow::Form& form) {
  return sapflow::flow_of(shipped::models().tree.stomata, shipped::models().sapflow, form, hours, demand);
}

std::vector<sapflow::Sample> samples(const std::vector<double>& flow, double level) {
  std::vector<sapflow::Sample> all;
  for (std::size_t h = 0; h < flow.size(); ++h) all.push_back({h, level * flow[h]});
  return all;
}

double steady_flow(const Still& still, const sapflow::Form& form) {
  sapflow::Hours all;
  for (int hour = 0; hour < 48; ++hour) {
    all.known.push_back(true);
    all.temp_c.push_back(still.temp_c);
    all.vpd_kpa.push_back(still.vpd_kpa);
    all.shortwave_w_m2.push_back(still.shortwave_w_m2);
    all.net_radiation_w_m2.push_back(still.net_radiation_w_m2);
    all.psychrometric_kpa_c.push_back(0.066);
    all.rew.push_back(still.rew);
    all.solar_day.push_back(hour / 24);
  }
  return flow(all, medians(), form).back();
}

}  // namespace invented
