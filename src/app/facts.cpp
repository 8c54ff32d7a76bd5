#include "app/facts.h"

#include <algorithm>
#include <functional>
#include <map>
#include <stdexcept>

#include "app/fact_trial.h"

namespace app {
namespace {

// One tree of a ground.
class One {
 public:
  One(const TrialGround& ground, std::size_t tree) : ground_(ground), tree_(tree) {}
  [[nodiscard]] const Course& run(const Trial& trial) const { return ground_.run(trial, tree_); }
  [[nodiscard]] double transpired_l(const Trial& trial) const { return ground_.transpired_l(trial, tree_); }
  [[nodiscard]] const TrialGround& ground() const { return ground_; }

 private:
  const TrialGround& ground_;
  std::size_t tree_;
};

double slower(const One& tree, const Trial& trial, const Trial& than) { return tree.run(trial).dose_h() / tree.run(than).dose_h(); }

// Longest over shortest time of the middle tree of each size.
double spread_over_sizes(const One& tree, const std::vector<double>& sizes_cm) {
  std::vector<double> hours;
  for (const double dbh_cm : sizes_cm) hours.push_back(tree.run({.dbh_cm = dbh_cm}).dose_h());
  const auto [shortest, longest] = std::minmax_element(hours.begin(), hours.end());
  return *longest / *shortest;
}

// Longest over shortest time of 134 elms of 25 to 95 cm sampled around the ground's first tree; the middle of nine such samples.
double extremes_of_134(const TrialGround& ground) {
  std::vector<double> folds;
  for (std::uint64_t seed = 1; seed <= 9; ++seed) {
    auto hours = ground.sampled_dose_h({}, sizes_of_134(), seed);
    hours.resize(134);
    const auto [shortest, longest] = std::minmax_element(hours.begin(), hours.end());
    folds.push_back(*longest / *shortest);
  }
  std::nth_element(folds.begin(), folds.begin() + 4, folds.end());
  return folds[4];
}

double single_hole(const One& tree, double dbh_cm, const std::string& species = "ulmus_americana") {
  return hole_ml_min(tree.run(hole_trial(dbh_cm, species)));
}

double good_rate(const One& tree) {
  const Course& course = tree.run({});
  return course.rate_l_h(course.dose_h());
}

using Compute = std::function<double(const One&)>;

const std::map<std::string, Compute, std::less<>>& computations() {
  using Tree = const One&;
  static const std::map<std::string, Compute, std::less<>> table{
      {"hours_very_large", [](Tree t) { return t.run({}).dose_h(); }},
      {"share_first_55_min", [](Tree t) { return t.run({}).share(55.0 / 60.0); }},
      {"sizes_25_95",
       [](Tree t) {
         return spread_over_sizes(t, {25, 35, 50, 75, 95});
       }},
      {"sizes_25_140",
       [](Tree t) {
         return spread_over_sizes(t, {25, 35, 50, 75, 95, 120, 140});
       }},
      {"extremes_134", [](Tree t) { return extremes_of_134(t.ground()); }},
      {"overcast_140", [](Tree t) { return slower(t, {.day = "overcast"}, {}); }},
      {"overcast_50", [](Tree t) { return slower(t, {.day = "overcast", .dbh_cm = 50}, {.dbh_cm = 50}); }},
      {"rain_share_10h", [](Tree t) { return t.run({.day = "rain", .watched_h = 10.0}).share(10.0); }},
      {"rain_rate_10h", [](Tree t) { return t.run({.day = "rain", .watched_h = 10.0}).rate_l_h(10.0) / good_rate(t); }},
      {"late_day", [](Tree t) { return slower(t, {.start_h = 18}, {}); }},
      {"dry_soil", [](Tree t) { return slower(t, {.rew = 0.2}, {}); }},
      {"very_dry_soil", [](Tree t) { return slower(t, {.rew = 0.1}, {.rew = 0.2}); }},
      {"hot_noon", [](Tree t) { return slower(t, {.day = "hot", .start_h = 12}, {.start_h = 12}); }},
      {"no_leaves_10h", [](Tree t) { return t.run({.leaf_share = 0.0, .watched_h = 10.0}).rate_l_h(10.0) / good_rate(t); }},
      {"cold_soil", [](Tree t) { return slower(t, {.soil_temp_c = 4.0}, {}); }},
      {"single_hole_16", [](Tree t) { return single_hole(t, 16); }},
      {"single_hole_20", [](Tree t) { return single_hole(t, 20); }},
      {"single_hole_25", [](Tree t) { return single_hole(t, 25); }},
      {"single_hole_red_oak", [](Tree t) { return single_hole(t, 20, "quercus_rubra"); }},
      {"single_hole_white_oak", [](Tree t) { return single_hole(t, 20, "quercus_alba"); }},
      {"single_hole_beech", [](Tree t) { return single_hole(t, 20, "fagus_grandifolia"); }},
      {"single_hole_sugar_maple", [](Tree t) { return single_hole(t, 20, "acer_saccharum"); }},
      {"single_hole_white_ash", [](Tree t) { return single_hole(t, 20, "fraxinus_americana"); }},
      {"single_hole_white_pine", [](Tree t) { return single_hole(t, 20, "pinus_strobus"); }},
      {"water_use_25", [](Tree t) { return t.transpired_l({.dbh_cm = 25}); }},
      {"water_use_140", [](Tree t) { return t.transpired_l({}); }},
      {"water_use_leaf_linden",
       [](Tree t) {
         const Trial linden{.dbh_cm = 20, .species = "tilia_americana"};
         return t.transpired_l(linden) / t.ground().leaf_area_m2(linden);
       }},
  };
  return table;
}

}  // namespace

std::vector<double> sizes_of_134() {
  std::vector<double> sizes_cm;
  for (int i = 0; i < 17; ++i) sizes_cm.push_back(25.0 + 70.0 * i / 16.0);
  return sizes_cm;
}

Trial hole_trial(double dbh_cm, const std::string& species) {
  return {.dbh_cm = dbh_cm, .species = species, .pressure_kpa = 69.0, .one_reference_hole = true, .watched_h = 1.0};
}

double hole_ml_min(const Course& course) {
  constexpr double five_minutes_h = 5.0 / 60.0;
  return course.volume_l(five_minutes_h) / five_minutes_h * 1000.0 / 60.0;
}

std::optional<double> fact_figure(const std::string& key, const TrialGround& ground, std::size_t tree) {
  const auto compute = computations().find(key);
  if (compute == computations().end()) return std::nullopt;
  return compute->second(One{ground, tree});
}

units::Result<std::vector<FactLine>> check_facts(const params::Models& models, const params::Facts& facts) {
  const TrialGround ground{models, facts};
  std::vector<FactLine> lines;
  for (const params::Fact& fact : facts.facts) {
    try {
      const auto model = fact_figure(fact.key, ground);
      if (!model) return units::fault("facts.json: facts", fact.key, "expected a fact that the program computes");
      lines.push_back({fact, *model, *model >= fact.lowest && *model <= fact.highest});
    } catch (const std::out_of_range& missing) {
      return units::fault("facts.json: " + fact.key, missing.what(), "expected the days and species that this fact needs");
    }
  }
  return lines;
}

}  // namespace app
