// One series of a site out of what several services say, and each service's own course beside it. docs/model/weather.md.
#pragma once
#include <cstdint>
#include <span>
#include <vector>

#include "units/time.h"
#include "weather/series.h"

namespace weather {

struct Blend {
  Series control;
  // With two or more services ahead of `now`: one course for each, the most trusted first (it is `control`). They share the past; ahead,
  // each keeps its own hours as far as it goes, so that where services disagree the possible weather is wider. Empty with one.
  std::vector<Series> opinions;
  // By hour of control: which of the given series speaks for it; nobody where no temperature is known.
  std::vector<std::uint8_t> speaker;
  static constexpr std::uint8_t nobody = 255;
};

// Brings series together, most trusted first; at most 254, each with at least one hour. Hour by hour the first series that has temperature
// and humidity speaks. What it does not give in that hour comes from the next series that does, with two exceptions: humidity is only ever
// the speaker's, and figures that belong together stay together (cloud with sun, amount of rain with its chance). Soil layers are the first
// that any series has. Provenance goes along with every value.
[[nodiscard]] Blend blend(std::span<const Series* const> by_trust, units::UtcTime now);

}  // namespace weather
