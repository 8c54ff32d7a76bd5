#include "fit/prior.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <utility>

#include "fit/edge.h"
#include "params/bind.h"
#include "params/document.h"
#include "units/random.h"

namespace fit {
namespace {

// Shares of the uncut log-normal that lie below its bounds.
std::pair<double, double> cut(const Prior& prior) {
  const auto below = [&](double bound) { return normal_share(std::log(bound / prior.median) / prior.ln_sd); };
  return {below(prior.lowest), below(prior.highest)};
}

double quantile(double share) { return units::normal_quantile(std::clamp(share, 1e-15, 1.0 - 1e-15)); }

Prior bind_prior(params::Section& s, const std::string& key, const params::Models& models, const std::vector<Prior>& before) {
  Prior prior;
  prior.key = key;
  const auto& rows = models.rows;
  const auto row = std::find_if(rows.begin(), rows.end(), [&](const params::Row& r) { return r.key == key; });
  if (row == rows.end()) {
    s.reading().fail(s.where(""), key, "expected a parameter of models/");
    return prior;
  }
  if (s.optional("share_of")) {
    prior.share_of = s.text("share_of");
    if (std::none_of(before.begin(), before.end(), [&](const Prior& p) { return p.key == prior.share_of; }))
      s.reading().fail(s.where("share_of"), prior.share_of, "expected a parameter that stands before this one");
  }
  prior.uniform = s.has("uniform");
  if (prior.uniform) {
    std::tie(prior.lowest, prior.highest) = s.bounds("uniform");
  } else {
    prior.median = s.bare_number("median");
    prior.ln_sd = s.bare_number("ln_sd");
    prior.lowest = row->lowest;
    prior.highest = row->highest;
    if (prior.median <= prior.lowest || prior.median >= prior.highest)
      s.reading().fail(s.where("median"), std::to_string(prior.median), "expected a value inside the parameter's range");
  }
  params::Row provenance;
  s.provenance(provenance);
  return prior;
}

}  // namespace

double value_at(const Prior& prior, double deviate) {
  const double share = normal_share(deviate);
  if (prior.uniform) return prior.lowest + (prior.highest - prior.lowest) * share;
  const auto [low, high] = cut(prior);
  return std::clamp(prior.median * std::exp(prior.ln_sd * quantile(low + (high - low) * share)), prior.lowest, prior.highest);
}

double deviate_of(const Prior& prior, double value) {
  if (prior.uniform) return quantile((value - prior.lowest) / (prior.highest - prior.lowest));
  const auto [low, high] = cut(prior);
  return quantile((normal_share(std::log(value / prior.median) / prior.ln_sd) - low) / (high - low));
}

units::Result<Priors> load_priors(const std::filesystem::path& directory, const params::Models& models) {
  params::Reading reading;
  reading.references = models.references;
  Priors priors;
  const std::filesystem::path file = directory / "priors.json";
  const auto json = params::read_document(file);
  if (!json) return tl::make_unexpected(json.error());
  params::Section::read(reading, file.string(), file.stem().string(), "", *json, [&](params::Section& whole) {
    whole.text("note");
    for (const auto& [name, tolerance] : {std::pair{"published", &priors.published}, {"practice", &priors.practice}})
      whole.section(name, [to = tolerance](params::Section& s) {
        to->ln_sd = s.bare_number("ln_sd");
        to->margin_ln = s.bare_number("margin_ln");
      });
    whole.section("parameters", [&](params::Section& all) {
      all.each([&](const std::string& key) {
        all.section(key, [&](params::Section& s) { priors.parameters.push_back(bind_prior(s, key, models, priors.parameters)); });
      });
    });
  });
  if (reading.fault) return tl::make_unexpected(std::move(*reading.fault));
  return priors;
}

}  // namespace fit
