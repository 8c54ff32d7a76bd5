// The model's uncertain numbers against the facts: what the fit of the defaults seeks, as least squares.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "app/facts.h"
#include "fit/most_probable.h"
#include "fit/prior.h"

namespace fit {

// A parameter that the facts may move, inside the numbers of a tree on trial. Throws std::out_of_range for a key that is none.
[[nodiscard]] double& parameter(app::TrialTree& tree, const std::string& key);

class FactFit {
 public:
  // All facts enter but the holes of other genera, each of which has its own port factor. The extremes among 134 trees enter once their
  // outermost trees are known (`watch_extremes`). `threads` share the trees; any number gives the same bits.
  FactFit(const params::Models& models, params::Facts facts, Priors priors, std::size_t threads);

  [[nodiscard]] const std::vector<Prior>& parameters() const { return priors_.parameters; }
  [[nodiscard]] const std::vector<params::Fact>& facts() const { return facts_.facts; }

  [[nodiscard]] Eigen::VectorXd values_at(const Eigen::VectorXd& deviates) const;
  [[nodiscard]] Eigen::VectorXd deviates_of(const Eigen::VectorXd& values) const;
  [[nodiscard]] app::TrialTree tree_with(const Eigen::VectorXd& values) const;

  // Seeks, at these deviates, the fastest and the two slowest of each of the nine samples of 134 trees; from now on these 27 stand for them
  // all, at a fiftieth of the cost.
  void watch_extremes(const Eigen::VectorXd& deviates);

  // What the model says of each fact, a column a point of deviates.
  [[nodiscard]] Eigen::MatrixXd figures(const Eigen::MatrixXd& points) const;
  // Two edges a fact; a bar that begins at 0 has but the upper.
  [[nodiscard]] Residuals residuals() const;

  // One mechanism made to do nothing, whatever the deviates say.
  void without(std::function<void(app::TrialTree&)> mechanism) { spoil_ = std::move(mechanism); }

 private:
  [[nodiscard]] double figure(const params::Fact& fact, const app::TrialGround& ground, std::size_t tree) const;

  const params::Models& models_;
  params::Facts facts_;
  Priors priors_;
  std::size_t threads_;
  std::vector<std::vector<app::Trial>> outermost_;  // of each sample of 134
  std::function<void(app::TrialTree&)> spoil_ = [](app::TrialTree&) {};
};

}  // namespace fit
