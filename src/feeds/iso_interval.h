// ISO 8601 intervals of the form start/duration, as the raw grids of the US National Weather Service write them.
#pragma once
#include <optional>
#include <string_view>

#include "units/time.h"

namespace feeds {

struct IsoInterval {
  units::UtcTime from, until;  // half-open [from, until), until > from
};

// "2026-07-15T12:00:00+00:00/P1DT6H". The duration is P[nD][T[nH][nM][nS]], longer than zero and at most 400 days;
// years, months and weeks are refused: they have no fixed length here.
[[nodiscard]] std::optional<IsoInterval> parse_interval(std::string_view text);

}  // namespace feeds
