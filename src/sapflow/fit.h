// A stand's demand from its record: the most probable parameters, prior times record. docs/model/sapflow.md, "Fit".
#pragma once
#include <cstddef>
#include <span>
#include <vector>

#include "sapflow/demand.h"
#include "sapflow/hours.h"
#include "sapflow/parameters.h"
#include "tree/parameters.h"

namespace sapflow {

// The median of every prior: what is believed of a stand without a record.
[[nodiscard]] Demand before_record(const Priors& priors);

// Levenberg-Marquardt on the logarithms, at most 40 rounds, from `start` on. Parameters that the form does not use keep `start`'s value;
// without samples the medians come back. Samples in rising order of hours, each in a known hour.
[[nodiscard]] Demand fit(const tree::Stomata& stomata, const Parameters& parameters, const Form& form, const Hours& hours,
                         std::span<const Sample> samples, const Demand& start);

// The flow of every hour of the record.
[[nodiscard]] std::vector<double> flow_of(const tree::Stomata& stomata, const Parameters& parameters, const Form& form, const Hours& hours,
                                          const Demand& demand);

}  // namespace sapflow
