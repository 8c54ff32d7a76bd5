// A genus' port factor from its published flow through a single hole.
#pragma once
#include <map>
#include <optional>
#include <string>

#include "app/fact_trial.h"

namespace fit {

// The species whose hole a fact is about; absent for elm's, which the tree's own numbers must give, and for other facts.
[[nodiscard]] std::optional<std::string> species_of_hole(const std::string& fact);

// By species key, to three digits: the factor at which the model's first five minutes give the middle of the fact's bar, its two seasons'
// mean. By bisection between 0 and 3.
[[nodiscard]] std::map<std::string, double> port_factors(const params::Models& models, const params::Facts& facts,
                                                         const app::TrialTree& tree);

}  // namespace fit
