// When a reader may be written to: quiet hours by his own clock, and the corrections that do not wait for them.
#pragma once
#include <chrono>
#include <optional>

#include "book/delivery.h"
#include "units/time.h"

namespace book {

// Minutes after midnight. Quiet from `from` until `until`, over midnight where that is the earlier; alike: never.
struct QuietHours {
  std::chrono::minutes from{0}, until{0};
};

// When a crew is at work on a day; empty: nobody said.
struct AtWork {
  std::optional<std::chrono::minutes> from, until;
  double overtime_h = 0.0;
};

// The end of the quiet hours that hold a message back at `now`, the reader's clock; empty where it may go. A correction never waits while
// the crew is at work on the day it is about (overtime counted; where nobody said when, all day): it may be about thunder over them.
[[nodiscard]] std::optional<units::LocalTime> held_until(const QuietHours& quiet, Purpose purpose, std::optional<units::LocalDay> about,
                                                         const AtWork& at_work, units::LocalTime now);

}  // namespace book
