#include "feeds/time_zone.h"

#include <date/tz.h>

#include <exception>

#include "feeds/text.h"

namespace feeds {

units::Result<units::ZoneOffsets> load_zone(const std::string& name, units::UtcTime from, units::UtcTime until) {
  try {
    const date::time_zone* zone = date::locate_zone(name);
    std::vector<units::ZoneOffsets::Span> spans;
    for (units::UtcTime at = from;;) {
      const date::sys_info info = zone->get_info(at);
      if (spans.empty() || spans.back().offset != info.offset) spans.push_back({at, info.offset});
      if (info.end <= at || info.end > until) break;
      at = info.end;
    }
    return units::ZoneOffsets{name, std::move(spans)};
  } catch (const std::exception&) {
    return units::fault("zone", for_message(name), "expected a time zone that this machine knows, such as America/Chicago");
  }
}

}  // namespace feeds
