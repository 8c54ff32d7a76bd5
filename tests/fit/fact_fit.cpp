#include "fit/fact_fit.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <stdexcept>

#include "app/parallel.h"
#include "fit/edge.h"
#include "fit/port_factors.h"

namespace fit {

double& parameter(app::TrialTree& tree, const std::string& key) {
  using Find = double& (*)(app::TrialTree&);
  using Tree = app::TrialTree&;
  static const std::map<std::string, Find> known{
      {"tree.stomata.g_ref", [](Tree t) -> double& { return t.tree.stomata.g_ref_mmol_m2_s.value; }},
      {"tree.stomata.light_extinction", [](Tree t) -> double& { return t.tree.stomata.light_extinction.value; }},
      {"tree.stomata.psi_half", [](Tree t) -> double& { return t.tree.stomata.psi_half_mpa.value; }},
      {"tree.stomata.rew_knee", [](Tree t) -> double& { return t.tree.stomata.rew_knee.value; }},
      {"tree.stomata.rew_knee_sharpness", [](Tree t) -> double& { return t.tree.stomata.rew_knee_sharpness.value; }},
      {"tree.hydraulics.whole_plant", [](Tree t) -> double& { return t.tree.hydraulics.whole_plant_mm_d_mpa.value; }},
      {"tree.hydraulics.root_share", [](Tree t) -> double& { return t.tree.hydraulics.root_share.value; }},
      {"tree.hydraulics.backflow", [](Tree t) -> double& { return t.tree.hydraulics.backflow.value; }},
      {"tree.hydraulics.rew_half_conductance", [](Tree t) -> double& { return t.tree.hydraulics.rew_half_conductance.value; }},
      {"tree.hydraulics.p50", [](Tree t) -> double& { return t.tree.hydraulics.p50_mpa.value; }},
      {"tree.hydraulics.elastic", [](Tree t) -> double& { return t.tree.hydraulics.elastic_l_m3_mpa.value; }},
      {"ports.conductance", [](Tree t) -> double& { return t.ports.conductance_l_h_mpa.value; }},
      {"ports.hole_factor", [](Tree t) -> double& { return t.ports.hole_factor.value; }},
      {"ports.fast_share", [](Tree t) -> double& { return t.ports.fast_share.value; }},
      {"ports.fast_hours", [](Tree t) -> double& { return t.ports.fast_hours.value; }},
      {"ports.slow_hours", [](Tree t) -> double& { return t.ports.slow_hours.value; }},
      {"ports.drilling", [](Tree t) -> double& { return t.ports.drilling_mpa.value; }},
      {"ports.native_p50", [](Tree t) -> double& { return t.ports.native_p50_mpa.value; }},
      {"ports.lumens_per_port", [](Tree t) -> double& { return t.ports.lumens_l_per_port.value; }},
      {"ports.lumens_hours", [](Tree t) -> double& { return t.ports.lumens_hours.value; }},
  };
  const auto found = known.find(key);
  if (found == known.end()) throw std::out_of_range(key + ": expected a parameter that the fit knows");
  return found->second(tree);
}

FactFit::FactFit(const params::Models& models, params::Facts facts, Priors priors, std::size_t threads)
    : models_(models), facts_(std::move(facts)), priors_(std::move(priors)), threads_(threads) {
  std::erase_if(facts_.facts, [](const params::Fact& fact) { return species_of_hole(fact.key).has_value(); });
}

void FactFit::watch_extremes(const Eigen::VectorXd& deviates) {
  constexpr std::size_t trees = 134, samples = 9;
  const app::TrialTree tree = tree_with(values_at(deviates));
  const app::TrialGround ground{models_, facts_, {&tree, 1}};
  const std::vector<double> sizes_cm = app::sizes_of_134();
  outermost_.clear();
  for (std::uint64_t seed = 1; seed <= samples; ++seed) {
    const auto hours = ground.sampled_dose_h({}, sizes_cm, seed);
    std::vector<std::size_t> order(trees);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return hours[a] < hours[b]; });
    std::vector<app::Trial> ends;
    for (const std::size_t index : {order[0], order[trees - 2], order[trees - 1]})
      ends.push_back(
          {.dbh_cm = sizes_cm[index / units::Lanes::count], .deviates = uptake::sampled_deviates(index, seed), .watched_h = 14.0});
    outermost_.push_back(std::move(ends));
  }
}

double FactFit::figure(const params::Fact& fact, const app::TrialGround& ground, std::size_t tree) const {
  if (fact.key != "extremes_134") return app::fact_figure(fact.key, ground, tree).value();
  if (outermost_.empty()) return std::sqrt(fact.lowest * fact.highest);
  double sum_ln_fold = 0.0;
  for (const auto& sample : outermost_) {
    double shortest = HUGE_VAL, longest = 0.0;
    for (const app::Trial& trial : sample) {
      // A tree that night overtakes counts as if it went on at its rate of then: near enough until morning, and without the morning's leap.
      const app::Course& course = ground.run(trial, tree);
      const double in_h = course.dose_h(), watched_h = *trial.watched_h;
      const double hours = std::isfinite(in_h) ? in_h : watched_h + course.left_l(watched_h) / course.rate_l_h(watched_h);
      shortest = std::min(shortest, hours);
      longest = std::max(longest, hours);
    }
    sum_ln_fold += std::log(longest / shortest);
  }
  return std::exp(sum_ln_fold / static_cast<double>(outermost_.size()));
}

Eigen::VectorXd FactFit::values_at(const Eigen::VectorXd& deviates) const {
  Eigen::VectorXd values(deviates.size());
  for (Eigen::Index i = 0; i < values.size(); ++i) {
    const Prior& prior = parameters()[static_cast<std::size_t>(i)];
    values[i] = value_at(prior, deviates[i]);
    for (Eigen::Index j = 0; j < i; ++j)
      if (parameters()[static_cast<std::size_t>(j)].key == prior.share_of) values[i] *= values[j];
  }
  return values;
}

Eigen::VectorXd FactFit::deviates_of(const Eigen::VectorXd& values) const {
  Eigen::VectorXd deviates(values.size());
  for (Eigen::Index i = 0; i < values.size(); ++i) {
    const Prior& prior = parameters()[static_cast<std::size_t>(i)];
    double value = values[i];
    for (Eigen::Index j = 0; j < i; ++j)
      if (parameters()[static_cast<std::size_t>(j)].key == prior.share_of) value /= values[j];
    deviates[i] = deviate_of(prior, value);
  }
  return deviates;
}

app::TrialTree FactFit::tree_with(const Eigen::VectorXd& values) const {
  app::TrialTree tree{models_.tree, models_.ports};
  for (Eigen::Index i = 0; i < values.size(); ++i) parameter(tree, parameters()[static_cast<std::size_t>(i)].key) = values[i];
  spoil_(tree);
  return tree;
}

Eigen::MatrixXd FactFit::figures(const Eigen::MatrixXd& points) const {
  constexpr auto block = static_cast<Eigen::Index>(app::TrialGround::most_trees);
  Eigen::MatrixXd figures(static_cast<Eigen::Index>(facts().size()), points.cols());
  const auto blocks = static_cast<std::size_t>((points.cols() + block - 1) / block);
  app::each_in_parallel(blocks, threads_, [&](std::size_t index) {
    const Eigen::Index first = static_cast<Eigen::Index>(index) * block, count = std::min(block, points.cols() - first);
    std::vector<app::TrialTree> trees;
    for (Eigen::Index i = 0; i < count; ++i) trees.push_back(tree_with(values_at(points.col(first + i))));
    const app::TrialGround ground{models_, facts_, trees};
    for (Eigen::Index i = 0; i < count; ++i)
      for (std::size_t fact = 0; fact < facts().size(); ++fact)
        figures(static_cast<Eigen::Index>(fact), first + i) = figure(facts()[fact], ground, static_cast<std::size_t>(i));
  });
  return figures;
}

Residuals FactFit::residuals() const {
  return [this](const Eigen::MatrixXd& points) {
    const Eigen::MatrixXd said = figures(points);
    Eigen::MatrixXd edges(2 * said.rows(), said.cols());
    for (Eigen::Index fact = 0; fact < said.rows(); ++fact) {
      const params::Fact& known = facts()[static_cast<std::size_t>(fact)];
      const Tolerance& may_be = known.published ? priors_.published : priors_.practice;
      for (Eigen::Index point = 0; point < said.cols(); ++point) {
        const double ln_figure = std::log(said(fact, point));
        edges(2 * fact, point) =
            known.lowest > 0.0 ? edge_residual((ln_figure - std::log(known.lowest) - may_be.margin_ln) / may_be.ln_sd) : 0.0;
        edges(2 * fact + 1, point) = edge_residual((std::log(known.highest) - ln_figure - may_be.margin_ln) / may_be.ln_sd);
      }
    }
    return edges;
  };
}

}  // namespace fit
