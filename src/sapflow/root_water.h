// Relative extractable water from a probe's own record, where nobody knows its texture: the probe has seen how wet the soil gets, and
// perhaps how dry.
#pragma once
#include <optional>
#include <vector>

namespace sapflow {

// Hour by hour from water contents (m3/m3), empty where unmeasured: 1 at the 97 % quantile of the record, 0 at its 0.5 % quantile, or at
// least `least_available_m3_m3` below the former, since a record without drought does not show where roots stop. Holes keep the last value;
// hours before the first count as moist. Not above 1.2. Empty where fewer than `fewest_hours` were measured.
[[nodiscard]] std::vector<double> rew_of_probe(const std::vector<std::optional<double>>& water_m3_m3, double least_available_m3_m3);

inline constexpr std::size_t fewest_hours = 100;

}  // namespace sapflow
