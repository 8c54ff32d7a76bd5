#include "fit/port_factors.h"

#include "app/facts.h"
#include "fit/digits.h"

namespace fit {

std::optional<std::string> species_of_hole(const std::string& fact) {
  static const std::map<std::string, std::string> species{
      {"single_hole_red_oak", "quercus_rubra"},        {"single_hole_white_oak", "quercus_alba"},
      {"single_hole_beech", "fagus_grandifolia"},      {"single_hole_sugar_maple", "acer_saccharum"},
      {"single_hole_white_ash", "fraxinus_americana"}, {"single_hole_white_pine", "pinus_strobus"}};
  const auto found = species.find(fact);
  return found == species.end() ? std::nullopt : std::optional{found->second};
}

std::map<std::string, double> port_factors(const params::Models& models, const params::Facts& facts, const app::TrialTree& tree) {
  std::map<std::string, double> factors;
  for (const params::Fact& fact : facts.facts) {
    const auto species = species_of_hole(fact.key);
    if (!species) continue;
    const double wanted = 0.5 * (fact.lowest + fact.highest);
    double low = 0.0, high = 3.0;
    for (int halving = 0; halving < 24; ++halving) {
      const double middle = 0.5 * (low + high);
      app::Trial hole = app::hole_trial(20.0, *species);
      hole.port_factor = middle;
      const app::TrialGround ground{models, facts, {&tree, 1}};
      (app::hole_ml_min(ground.run(hole)) < wanted ? low : high) = middle;
    }
    factors[*species] = to_digits(0.5 * (low + high), 3);
  }
  return factors;
}

}  // namespace fit
