// Offsets of IANA time zones from the system's zone database.
#pragma once
#include <string>

#include "units/fault.h"
#include "units/time.h"

namespace feeds {

// The offsets that `name` ("America/Chicago") uses between two instants; earlier and later times take the nearest span's.
// Fault: a name that the system's zone database does not hold, or no database at all.
[[nodiscard]] units::Result<units::ZoneOffsets> load_zone(const std::string& name, units::UtcTime from, units::UtcTime until);

}  // namespace feeds
