// One tree as the question "which day?" sees it: everything that does not change from day to day.
#pragma once
#include <chrono>
#include <optional>

#include "days/practice.h"
#include "soil/retention.h"
#include "tree/parameters.h"
#include "units/site.h"
#include "units/time.h"
#include "uptake/plant.h"

namespace days {

struct TreeCase {
  uptake::Subject subject;
  soil::RewCurve curve;  // of the soil it stands in
  units::Site site;
  units::ZoneOffsets zone;
  std::optional<std::chrono::minutes> leave_by;  // wall clock; else the work day's end
  bool dose_from_label = false;                  // the owner's own figure, not common practice
  units::Metres root_zone;                       // depth of it, > 0
};

// Ports that a crew will drill: counted, or flare circumference over spacing, rounded to whole ports, at least 1.
[[nodiscard]] int port_count(const TreeCase& tree);
// Circumference of the flare, from the trunk's.
[[nodiscard]] units::Metres flare_circumference(const TreeCase& tree);

}  // namespace days
