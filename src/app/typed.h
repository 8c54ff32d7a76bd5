// What a crew types at the tree: times by the wall clock, gallons or litres.
#pragma once
#include <chrono>
#include <optional>
#include <string_view>

#include "app/request.h"
#include "units/quantity.h"
#include "units/time.h"

namespace app {

// A time as typed: an instant, or a wall clock with or without its day.
struct TypedTime {
  std::optional<units::UtcTime> instant;
  std::optional<units::LocalDay> day;
  std::chrono::minutes clock{0};

  // `day_meant`: of a time typed without one.
  [[nodiscard]] units::UtcTime in(const units::ZoneOffsets& zone, units::LocalDay day_meant) const;
};

// "9:05", "14:30", "9:05 am", "2 pm", "2026-07-06 9:05", "2026-07-06T14:05Z". Nothing else.
[[nodiscard]] std::optional<TypedTime> typed_time(std::string_view text);

// "12gal", "12.5 gal", "40 L", "40": a number >= 0 and gal or L in any case; without a unit that of `units`.
[[nodiscard]] std::optional<units::Litres> typed_amount(std::string_view text, UnitSystem units);

struct TypedReading {
  TypedTime time;
  units::Litres amount;
};
// A time, a blank, an amount: "10:00 12gal", "2 pm 40 L".
[[nodiscard]] std::optional<TypedReading> typed_reading(std::string_view text, UnitSystem units);

}  // namespace app
