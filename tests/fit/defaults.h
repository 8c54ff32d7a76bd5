// The fitted defaults of models/: from facts.json and priors.json to the numbers shipped in tree.json, ports.json and species.json, and to
// posterior.json, which says how well each is known.
#pragma once
#include <filesystem>
#include <map>
#include <string>

#include "fit/chains.h"
#include "units/fault.h"

namespace fit {

struct Defaults {
  std::map<std::string, std::string> files;  // by name, as they belong into models/
  int rounds = 0;                            // of the search for the most probable numbers
  double disagreement = 0.0;                 // largest R-hat of the chains
  double accepted = 0.0;
};

// The draws that posterior.json is written from.
[[nodiscard]] ChainPlan shipped_plan();

// Runs the fit. What tree.json, ports.json and species.json have now for the fitted numbers does not matter. Fault: files that cannot be
// read.
[[nodiscard]] units::Result<Defaults> fit_defaults(const std::filesystem::path& directory, std::size_t threads, const ChainPlan& plan);

}  // namespace fit
