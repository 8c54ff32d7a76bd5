// UTC instants and local days. They are different types, so that a day at the tree is never taken for a day in Greenwich.
// The zone's offsets arrive as data (feeds/time_zone.h reads them); nothing here asks the machine for a clock or a zone.
#pragma once
#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace units {

using UtcTime = std::chrono::sys_seconds;
using UtcHour = std::chrono::sys_time<std::chrono::hours>;
// Wall-clock time and calendar day at a place.
using LocalTime = std::chrono::local_seconds;
using LocalDay = std::chrono::local_days;

// The offsets from UTC that one zone has used or will use over the years it was loaded for.
class ZoneOffsets {
 public:
  struct Span {
    UtcTime from;                 // the first instant at which `offset` holds
    std::chrono::seconds offset;  // local minus UTC
  };

  // `spans` in rising order of `from`, at least one; the first also serves all earlier times.
  ZoneOffsets(std::string name, std::vector<Span> spans);
  static ZoneOffsets utc();

  [[nodiscard]] const std::string& name() const { return name_; }
  [[nodiscard]] LocalTime to_local(UtcTime instant) const;
  // The earlier instant where a wall-clock time happens twice; where it is skipped, the instant at which the gap ends.
  [[nodiscard]] UtcTime to_utc(LocalTime wall) const;
  [[nodiscard]] LocalDay day_of(UtcTime instant) const;
  // First instant of a local day, and of the next one: 23, 24 or 25 hours apart.
  [[nodiscard]] UtcTime start_of(LocalDay day) const;
  [[nodiscard]] UtcTime end_of(LocalDay day) const;

 private:
  std::string name_;
  std::vector<Span> spans_;
};

// Strict parsing of `YYYY-MM-DD` and of an ISO 8601 instant `YYYY-MM-DDTHH:MM[:SS](Z|+hh:mm|-hh:mm)`, with T or a blank; nothing else is accepted.
[[nodiscard]] std::optional<LocalDay> parse_day(std::string_view text);
[[nodiscard]] std::optional<UtcTime> parse_instant(std::string_view text);

// `YYYY-MM-DD`, `YYYY-MM-DDTHH:MMZ`, `YYYY-MM-DDTHH:MM` (wall clock).
[[nodiscard]] std::string to_text(LocalDay day);
[[nodiscard]] std::string to_text(UtcTime instant);
[[nodiscard]] std::string to_text(LocalTime wall);

// 1..366.
[[nodiscard]] int day_of_year(LocalDay day);

}  // namespace units
