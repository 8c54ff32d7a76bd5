// How cloudy the longwave term takes the sky to be, hour by hour: Rs/Rso while the sun is high, the last such ratio otherwise.
// Source: ASCE-EWRI (2005), hourly calculation; FAO-56 (Allen et al. 1998) chapter 4 takes the hour 2-3 h before sunset, to the
// same end. Arrays of one length; `judging_sky_w_m2` is that of air/sun_hours.h, 0 also where the hour has no shortwave.
#pragma once
#include <optional>
#include <span>

namespace air {

// The ratio of the first hour that judges the sky; none where no hour does.
[[nodiscard]] std::optional<double> first_sky_ratio(std::span<const double> shortwave_w_m2, std::span<const double> judging_sky_w_m2);

// Writes Rs/Rso of every hour; `before` serves until the first hour that judges. Returns that of the last hour, to go on from.
double sky_ratios(std::span<const double> shortwave_w_m2, std::span<const double> judging_sky_w_m2, double before,
                  std::span<double> ratios);

}  // namespace air
