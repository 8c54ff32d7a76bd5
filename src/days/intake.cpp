#include "days/intake.h"

#include <algorithm>

#include "days/job_time.h"

namespace days {

Rates rates(const std::vector<std::vector<double>>& volumes_l) {
  Rates found;
  if (volumes_l.empty()) return found;
  std::vector<double> peak(volumes_l.front().size(), 0.0);
  std::vector<double> rate(peak.size());
  for (std::size_t i = 0; i < volumes_l.size(); ++i) {
    for (std::size_t draw = 0; draw < rate.size(); ++draw) {
      rate[draw] = 2.0 * (volumes_l[i][draw] - (i > 0 ? volumes_l[i - 1][draw] : 0.0));
      peak[draw] = std::max(peak[draw], rate[draw]);
    }
    found.median_l_h.push_back(*quantile(rate, 0.5));
  }
  found.peak_l_h = quantiles(peak);
  return found;
}

int sure_tanks(const TreeCase& tree, const SetUp& set_up, const std::vector<std::vector<double>>& volumes_l,
               const std::vector<double>& available_h) {
  if (volumes_l.empty()) return 0;
  std::vector<double> taken_l(available_h.size(), 0.0);
  for (std::size_t draw = 0; draw < taken_l.size(); ++draw) {
    const auto half_hours = static_cast<std::size_t>(std::max(0.0, 2.0 * available_h[draw] + 1e-9));
    if (half_hours > 0) taken_l[draw] = volumes_l[std::min(half_hours, volumes_l.size()) - 1][draw];
  }
  const double sure_l = *quantile(std::move(taken_l), 1.0 - set_up.tank_sure);
  if (sure_l >= tree.subject.dose.value) return tank_count(tree, set_up);
  return static_cast<int>(sure_l / set_up.tank_l);
}

}  // namespace days
