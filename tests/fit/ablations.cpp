#include "fit/ablations.h"

#include <fmt/format.h>

#include <functional>
#include <vector>

#include "fit/fact_fit.h"

namespace fit {
namespace {

using Tree = app::TrialTree&;

constexpr double never_mpa = 1e6;  // a potential that no tree reaches

struct Mechanism {
  const char* name;
  std::function<void(Tree)> off;
  bool dry_leaves = false;  // no rain falls on them
};

void no_root_signal(Tree t) { t.tree.stomata.rew_knee.value = 1e-6; }
void no_soil_resistance(Tree t) { t.tree.hydraulics.rew_half_conductance.value = 0.02; }
void no_native_embolism(Tree t) { t.ports.native_p50_mpa.value = never_mpa; }

const std::vector<Mechanism>& mechanisms() {
  static const std::vector<Mechanism> all{
      {"nothing", [](Tree) {}},
      {"soil water: root signal (6), roots in dry soil (9), native embolism (13)",
       [](Tree t) {
         no_root_signal(t);
         no_soil_resistance(t);
         no_native_embolism(t);
       }},
      {"root signal alone (6)", no_root_signal},
      {"roots in dry soil alone (9)", no_soil_resistance},
      {"native embolism alone (13)", no_native_embolism},
      {"elastic storage, to a fortieth (12)", [](Tree t) { t.tree.hydraulics.elastic_l_m3_mpa.value = 0.5; }},
      {"lumens (16)", [](Tree t) { t.ports.lumens_l_per_port.value = 0.0; }},
      {"wet crown (8a)", [](Tree) {}, true},
      {"fast fatigue (14)", [](Tree t) { t.ports.fast_share.value = 0.0; }},
      {"slow fatigue (14)", [](Tree t) { t.ports.slow_hours.value = 1e6; }},
      {"air drawn in at drilling (13)", [](Tree t) { t.ports.drilling_mpa.value = never_mpa; }},
      {"backflow (10)", [](Tree t) { t.tree.hydraulics.backflow.value = 0.0; }},
      {"loss of the stem's conductance (11)", [](Tree t) { t.tree.hydraulics.p50_mpa.value = never_mpa; }},
      {"leaves closing by crown potential (8)", [](Tree t) { t.tree.stomata.psi_half_mpa.value = never_mpa; }},
      {"leaves closing in dry air (5)", [](Tree t) { t.tree.stomata.vpd_slope = 0.0; }},
      {"leaves closing in heat (5)", [](Tree t) { t.tree.stomata.temp_max_c = 1e3; }},
      {"cold roots, but for viscosity (7)", [](Tree t) { t.tree.stomata.cold_full_c = 0.1; }},
      {"light within the crown (4)", [](Tree t) { t.tree.stomata.light_extinction.value = 1e-3; }},
  };
  return all;
}

// The facts outside their bars with what the model says, or "none".
std::string outside(const FactFit& facts, const Eigen::VectorXd& at) {
  const Eigen::MatrixXd figures = facts.figures(at);
  std::string names;
  for (std::size_t i = 0; i < facts.facts().size(); ++i) {
    const params::Fact& fact = facts.facts()[i];
    const double figure = figures(static_cast<Eigen::Index>(i), 0);
    if (figure >= fact.lowest && figure <= fact.highest) continue;
    names += fmt::format("{}`{}` {:.2g}", names.empty() ? "" : ", ", fact.key, figure);
  }
  return names.empty() ? "none" : names;
}

constexpr const char* begins = "<!-- ablations -->\n";
constexpr const char* ends = "<!-- end of ablations -->";

}  // namespace

units::Result<std::string> ablation_table(const std::filesystem::path& directory, std::size_t threads) {
  const auto models = params::load_models(directory);
  if (!models) return tl::make_unexpected(models.error());
  const auto known = params::load_facts(directory);
  if (!known) return tl::make_unexpected(known.error());
  const auto priors = load_priors(directory, *models);
  if (!priors) return tl::make_unexpected(priors.error());
  params::Facts dry = *known;
  for (auto& [name, day] : dry.days) day.rain_mm_h = 0.0;

  std::string table = "| without | facts outside, nothing else changed | and all else fitted again | misfit |\n|---|---|---|---|\n";
  for (const Mechanism& mechanism : mechanisms()) {
    FactFit facts{*models, mechanism.dry_leaves ? dry : *known, *priors, threads};
    facts.without(mechanism.off);
    Eigen::VectorXd shipped(static_cast<Eigen::Index>(facts.parameters().size()));
    app::TrialTree tree{models->tree, models->ports};
    for (std::size_t i = 0; i < facts.parameters().size(); ++i)
      shipped[static_cast<Eigen::Index>(i)] = parameter(tree, facts.parameters()[i].key);
    const Eigen::VectorXd at = facts.deviates_of(shipped);
    const Optimum again = most_probable(facts.residuals(), at);
    table += fmt::format("| {} | {} | {} | {:.1f} |\n", mechanism.name, outside(facts, at), outside(facts, again.at), again.objective);
  }
  return table;
}

std::string with_ablations(std::string document, const std::string& table) {
  const std::size_t begin = document.find(begins), end = document.find(ends);
  if (begin == std::string::npos || end == std::string::npos) return document;
  const std::size_t from = begin + std::string_view{begins}.size();
  return document.replace(from, end - from, table);
}

}  // namespace fit
