#include "days/tree_case.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace days {

units::Metres flare_circumference(const TreeCase& tree) {
  return units::Metres{std::numbers::pi * tree.subject.measured.dbh.value * tree.subject.source.flare_factor.value / 100.0};
}

int port_count(const TreeCase& tree) {
  const double ports = tree.subject.port_count.value_or(100.0 * flare_circumference(tree).value / tree.subject.port_spacing.value);
  return std::max(1, static_cast<int>(std::lround(ports)));
}

}  // namespace days
