// What somebody read off a rain gauge, day by day: a CSV kept by hand.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/fault.h"
#include "units/site.h"
#include "units/time.h"

namespace feeds {

struct GaugeDay {
  units::LocalDay day;
  double rain_mm = 0.0;                  // 0..1000
  std::optional<units::Site> site = {};  // of the gauge; without one it stands for every tree of the list
};

// Header `date` and one of `rain_mm` or `rain_in`, optionally `lat,lon`; one gauge and day a line. The whole file is refused for one bad
// line: a day that was left out by mistake would be a dry one. Faults name line and column.
[[nodiscard]] units::Result<std::vector<GaugeDay>> read_gauge(const std::string& name, std::string_view content);

}  // namespace feeds
