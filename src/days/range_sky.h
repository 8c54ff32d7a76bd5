// The sky that a day's range of temperature speaks for, where a source gives neither sun nor cloud.
#pragma once
#include "air/hours.h"
#include "units/site.h"

namespace days {

// Share of clear-sky radiation, 0.25..1, around `hour` of `air`: Hargreaves' radiation from the range of the 24 hours around it
// (FAO-56 eq. 50, inland) over clear sky. 1 where no temperature is known.
[[nodiscard]] double range_sky_share(const air::AirHours& air, const units::Site& site, std::size_t hour);

}  // namespace days
