#include "days/job_time.h"

#include <algorithm>
#include <cmath>

namespace days {

using units::Hours;

JobTime job_time(const TreeCase& tree, const Phases& phases) {
  const double ports = port_count(tree);
  return {.dig = Hours{phases.dig_h + phases.dig_h_per_m * flare_circumference(tree).value},
          .layout = Hours{phases.layout_h},
          .drill = Hours{phases.drill_h_per_port * ports},
          .leak_check = Hours{phases.leak_check_h},
          .mix = Hours{phases.mix_h_per_tank},
          .tear_down = Hours{phases.tear_down_h + phases.tear_down_h_per_port * ports}};
}

int tank_count(const TreeCase& tree, const SetUp& set_up) {
  return std::max(1, static_cast<int>(std::ceil(tree.subject.dose.value / set_up.tank_l - 1e-9)));
}

}  // namespace days
