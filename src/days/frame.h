// One local day on the clock of an outlook.
#pragma once
#include <cstddef>
#include <vector>

#include "days/outlook.h"

namespace days {

struct Frame {
  units::LocalDay date;
  std::size_t first;    // the hour that the day begins in
  std::size_t until;    // end of the hours that a job of this day may run through
  std::size_t day_end;  // end of the day's own hours
};

// Every local day that begins at or after `now` and whose weather is known to its end, in order.
[[nodiscard]] std::vector<Frame> frames(const units::ZoneOffsets& zone, const Outlook& outlook, units::UtcTime now);

}  // namespace days
