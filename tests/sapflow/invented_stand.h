// A stand in invented weather: two months of sun and cloud, dry days and damp ones, soil that dries and is rewetted.
#pragma once
#include <vector>

#include "sapflow/demand.h"
#include "sapflow/hours.h"
#include "support/shipped_models.h"

namespace invented {

[[nodiscard]] sapflow::Hours hours(int days = 60);
[[nodiscard]] std::vector<double> flow(const sapflow::Hours& hours, const sapflow::Demand& demand, const sapflow::Form& form = {});
// Every hour measured exactly, times a level.
[[nodiscard]] std::vector<sapflow::Sample> samples(const std::vector<double>& flow, double level = 1.0);
[[nodiscard]] sapflow::Demand medians();

// One hour held until the lag is forgotten: flow in a steady state.
struct Still {
  double temp_c = 22.0, vpd_kpa = 1.5, shortwave_w_m2 = 600.0, net_radiation_w_m2 = 400.0, rew = 1.0;
};
[[nodiscard]] double steady_flow(const Still& still, const sapflow::Form& form = {});

}  // namespace invented
