#include "days/frame.h"

#include <algorithm>

namespace days {

std::vector<Frame> frames(const units::ZoneOffsets& zone, const Outlook& outlook, units::UtcTime now) {
  std::vector<Frame> found;
  if (outlook.known == 0) return found;
  const units::UtcTime from = std::max(now, outlook.begins(0));
  units::LocalDay day = zone.day_of(from);
  if (zone.start_of(day) < from) day += std::chrono::days{1};
  for (; zone.end_of(day) <= outlook.begins(outlook.known); day += std::chrono::days{1}) {
    const std::size_t first = *outlook.hour_at(zone.start_of(day));
    const std::size_t day_end = outlook.hour_at(zone.end_of(day)).value_or(outlook.hours());
    found.push_back({day, first, std::min(first + 48, outlook.hours()), day_end});
  }
  return found;
}

}  // namespace days
