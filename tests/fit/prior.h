// What is held of a parameter before any fact is looked at. Parameters are fitted as deviates: a parameter's deviate is standard normal
// where its prior holds, whatever the shape of that.
#pragma once
#include <string>
#include <vector>

#include "params/models.h"
#include "units/fault.h"

namespace fit {

struct Prior {
  std::string key;                     // as params::Row
  std::string share_of;                // the parameter that this one is a share of; empty where it stands alone
  bool uniform = false;                // else log-normal
  double median = 0.0, ln_sd = 0.0;    // of the log-normal, before it is cut at the bounds
  double lowest = 0.0, highest = 0.0;  // bounds: of a uniform prior its own, else the parameter's range
};

// What the prior has at a deviate: rising, inside the bounds for any finite deviate.
[[nodiscard]] double value_at(const Prior& prior, double deviate);
// Its inverse; `value` strictly inside the bounds.
[[nodiscard]] double deviate_of(const Prior& prior, double value);

// How a kind of fact is taken, on the logarithm of its figure.
struct Tolerance {
  double ln_sd = 0.0;      // how far the model's figure for an invented day may be off what was seen
  double margin_ln = 0.0;  // how far inside its bar the fit aims, so that rounded numbers lie inside
};

struct Priors {
  std::vector<Prior> parameters;  // each after the one that it is a share of
  Tolerance published, practice;
};

// From `directory`/priors.json, beside models loaded from there. Fault: as params::load_models, a key that is no parameter, a share of what
// does not stand before it, a median outside the parameter's range.
[[nodiscard]] units::Result<Priors> load_priors(const std::filesystem::path& directory, const params::Models& models);

}  // namespace fit
