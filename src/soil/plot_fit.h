// A plot's ground from its record: the most probable numbers, prior times record. docs/model/soil.md, "Ground on record".
#pragma once
#include "soil/plot.h"

namespace soil {

// Levenberg-Marquardt on the logarithms, at most 8 rounds. What is fitted are forecasts: a correction, then up to
// PlotParameters::lead_days days let alone. Only days `from`..`until` are looked at. Without a day to judge the medians come back.
// Fault: a root zone or weather that the balance refuses.
[[nodiscard]] units::Result<Plot> fit_plot(const Parameters& trees, const PlotParameters& parameters, const Texture& like,
                                           const ShownRange& range, const PlotRecord& record, std::size_t from, std::size_t until);

}  // namespace soil
