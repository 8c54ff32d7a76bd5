#include "fit/defaults.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <vector>

#include "fit/digits.h"
#include "fit/fact_fit.h"
#include "fit/port_factors.h"
#include "fit/shipped_text.h"

namespace fit {
namespace {

constexpr double low_share = 0.1, high_share = 0.9;

std::string read(const std::filesystem::path& file) {
  std::ifstream stream{file, std::ios::binary};
  return {std::istreambuf_iterator<char>{stream}, {}};
}

// Of unsorted numbers, between the two nearest.
double quantile(std::vector<double> numbers, double share) {
  std::sort(numbers.begin(), numbers.end());
  const double at = share * static_cast<double>(numbers.size() - 1);
  const auto below = static_cast<std::size_t>(at);
  return std::lerp(numbers[below], numbers[std::min(below + 1, numbers.size() - 1)], at - std::floor(at));
}

std::vector<double> row_of(const Eigen::MatrixXd& points, Eigen::Index row) {
  std::vector<double> numbers(static_cast<std::size_t>(points.cols()));
  for (Eigen::Index i = 0; i < points.cols(); ++i) numbers[static_cast<std::size_t>(i)] = points(row, i);
  return numbers;
}

std::string three(double low, double middle, double high) {
  return fmt::format("[{}, {}, {}]", digits_text(low, 2), digits_text(middle, 2), digits_text(high, 2));
}
std::string three(const std::vector<double>& numbers) {
  return three(quantile(numbers, low_share), quantile(numbers, 0.5), quantile(numbers, high_share));
}

double sd(const std::vector<double>& numbers) {
  double sum = 0.0, squares = 0.0;
  for (const double x : numbers) sum += x;
  const double mean = sum / static_cast<double>(numbers.size());
  for (const double x : numbers) squares += (x - mean) * (x - mean);
  return std::sqrt(squares / static_cast<double>(numbers.size() - 1));
}

double correlation(const Eigen::MatrixXd& points, Eigen::Index a, Eigen::Index b) {
  const Eigen::ArrayXd x = points.row(a).array() - points.row(a).mean(), y = points.row(b).array() - points.row(b).mean();
  return (x * y).sum() / std::sqrt(x.square().sum() * y.square().sum());
}

// How the facts have narrowed a prior, by the ratio of spreads.
const char* identified(double sd_ratio) { return sd_ratio < 0.75 ? "yes" : sd_ratio < 0.9 ? "weakly" : "no"; }

// The models with a fitted tree laid in.
params::Models with(params::Models models, const app::TrialTree& tree, const std::map<std::string, double>& factors) {
  for (tree::Species& species : models.species) {
    if (species.p50_mpa.value == models.tree.hydraulics.p50_mpa.value) species.p50_mpa = tree.tree.hydraulics.p50_mpa;
    if (const auto factor = factors.find(species.key); factor != factors.end()) species.port_factor = factor->second;
  }
  models.tree = tree.tree;
  models.ports = tree.ports;
  return models;
}

struct Result {
  Eigen::VectorXd mode, shipped;  // values
  Draws draws;
  Eigen::MatrixXd values;   // of the draws
  Eigen::MatrixXd figures;  // of the draws
};

std::string parameters_text(const FactFit& facts, const Result& result) {
  std::string text;
  for (std::size_t i = 0; i < facts.parameters().size(); ++i) {
    const Prior& prior = facts.parameters()[i];
    const auto row = static_cast<Eigen::Index>(i);
    const double ratio = sd(row_of(result.draws.points, row)), z = 1.2815515655446004;
    std::string goes_with;
    for (std::size_t other = 0; other < facts.parameters().size(); ++other) {
      const double r = other == i ? 0.0 : correlation(result.draws.points, row, static_cast<Eigen::Index>(other));
      if (std::abs(r) >= 0.4) goes_with += fmt::format("{}\"{}\": {:.1f}", goes_with.empty() ? "" : ", ", facts.parameters()[other].key, r);
    }
    text += fmt::format(
        "{}\n    \"{}\": {{\"prior\": {}, {}\"mode\": {}, \"shipped\": {}, \"posterior\": {}, \"sd_ratio\": {:.2f}, \"identified\": "
        "\"{}\", "
        "\"goes_with\": {{{}}}}}",
        i == 0 ? "" : ",", prior.key, three(value_at(prior, -z), value_at(prior, 0.0), value_at(prior, z)),
        prior.share_of.empty() ? "" : fmt::format("\"share_of\": \"{}\", ", prior.share_of), digits_text(result.mode[row], 3),
        digits_text(result.shipped[row], 2), three(row_of(result.values, row)), ratio, identified(ratio), goes_with);
  }
  return text;
}

std::string facts_text(const FactFit& facts, const Result& result, const std::vector<app::FactLine>& lines) {
  std::string text;
  for (const app::FactLine& line : lines) {
    const auto entered = std::find_if(facts.facts().begin(), facts.facts().end(), [&](const auto& f) { return f.key == line.fact.key; });
    const std::string known = entered == facts.facts().end()
                                  ? std::string{}
                                  : fmt::format(", \"posterior\": {}", three(row_of(result.figures, entered - facts.facts().begin())));
    text += fmt::format("{}\n    \"{}\": {{\"bar\": [{}, {}], \"shipped\": {}{}}}", text.empty() ? "" : ",", line.fact.key,
                        line.fact.lowest, line.fact.highest, digits_text(line.model, 3), known);
  }
  return text;
}

Eigen::MatrixXd some_of(const Eigen::MatrixXd& points, Eigen::Index count) {
  const Eigen::Index every = std::max<Eigen::Index>(1, points.cols() / count);
  Eigen::MatrixXd some(points.rows(), points.cols() / every);
  for (Eigen::Index i = 0; i < some.cols(); ++i) some.col(i) = points.col(i * every);
  return some;
}

}  // namespace

ChainPlan shipped_plan() { return {}; }

units::Result<Defaults> fit_defaults(const std::filesystem::path& directory, std::size_t threads, const ChainPlan& plan) {
  const auto models = params::load_models(directory);
  if (!models) return tl::make_unexpected(models.error());
  const auto known = params::load_facts(directory);
  if (!known) return tl::make_unexpected(known.error());
  const auto priors = load_priors(directory, *models);
  if (!priors) return tl::make_unexpected(priors.error());

  FactFit facts{*models, *known, *priors, threads};
  const auto n = static_cast<Eigen::Index>(facts.parameters().size());
  // The outermost trees of 134 are others once the numbers have moved: looked for twice.
  Optimum optimum = most_probable(facts.residuals(), Eigen::VectorXd::Zero(n));
  for (int look = 0; look < 2; ++look) {
    facts.watch_extremes(optimum.at);
    optimum = most_probable(facts.residuals(), optimum.at);
  }
  Result result;
  result.mode = facts.values_at(optimum.at);
  result.shipped = result.mode.unaryExpr([](double value) { return to_digits(value, 2); });
  const app::TrialTree tree = facts.tree_with(result.shipped);
  const auto factors = port_factors(*models, *known, tree);
  const auto lines = app::check_facts(with(*models, tree, factors), *known);
  if (!lines) return tl::make_unexpected(lines.error());

  result.draws = draw_chains(facts.residuals(), optimum, plan);
  result.values.resize(n, result.draws.points.cols());
  for (Eigen::Index i = 0; i < result.values.cols(); ++i) result.values.col(i) = facts.values_at(result.draws.points.col(i));
  result.figures = facts.figures(some_of(result.draws.points, 1000));

  Defaults defaults;
  defaults.rounds = optimum.rounds;
  defaults.accepted = result.draws.accepted;
  for (Eigen::Index i = 0; i < n; ++i) defaults.disagreement = std::max(defaults.disagreement, disagreement(result.draws, i));
  for (const char* name : {"tree.json", "ports.json", "species.json"}) defaults.files[name] = read(directory / name);
  for (Eigen::Index i = 0; i < n; ++i) {
    const std::string& key = facts.parameters()[static_cast<std::size_t>(i)].key;
    const std::size_t dot = key.find('.');
    std::string& text = defaults.files.at(key.substr(0, dot) + ".json");
    text = with_value(std::move(text), key.substr(dot + 1), result.shipped[i]);
  }
  for (const auto& [species, factor] : factors) {
    std::string& text = defaults.files.at("species.json");
    text = with_value(std::move(text), "species." + species + ".port_factor", factor);
  }
  const auto inside = std::count_if(lines->begin(), lines->end(), [](const auto& line) { return line.inside; });
  defaults.files["posterior.json"] = fmt::format(
      "{{\n  \"note\": \"Written by the target fit-defaults from facts.json and priors.json: prior, most probable and shipped value, and "
      "what the "
      "facts leave of the prior. Ranges are 10, 50 and 90 %, of the default tree and not between trees. sd_ratio: spread after the facts "
      "over "
      "spread before, below 0.75 identified, below 0.9 weakly. goes_with: correlations from 0.4.\",\n"
      "  \"source\": \"fit-defaults\",\n  \"confidence\": \"D\",\n"
      "  \"facts_inside\": {},\n  \"facts\": {{{}\n  }},\n  \"parameters\": {{{}\n  }}\n}}\n",
      inside, facts_text(facts, result, *lines), parameters_text(facts, result));
  return defaults;
}

}  // namespace fit
