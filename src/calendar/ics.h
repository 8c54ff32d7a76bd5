// Events as an iCalendar object (RFC 5545), by libical.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "units/time.h"

namespace calendar {

struct Event {
  std::string uid;      // the same for the same booking, for ever
  int sequence = 0;     // grows with every change
  units::LocalDay day;  // of an event without hours
  std::optional<units::UtcTime> begins, ends;
  std::string summary, location, description;
};

// `stamp`: when the object is made. Lines end in CRLF and are folded as the standard asks; text is escaped.
[[nodiscard]] std::string ics(const std::vector<Event>& events, units::UtcTime stamp);

}  // namespace calendar
