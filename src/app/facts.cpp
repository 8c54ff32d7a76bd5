#include "app/facts.h"

#include <algorithm>
#include <functional>
#include <map>
#include <stdexcept>

#include "app/fact_trial.h"

namespace app {
namespace {

double slower(const TrialGround& ground, const Trial& trial, const Trial& than) {
  return ground.run(trial).dose_h() / ground.run(than).dose_h();
}

// Longest over shortest time of the middle tree of each size.
double spread_over_sizes(const TrialGround& ground, const std::vector<double>& sizes_cm) {
  std::vector<double> hours;
  for (const double dbh_cm : sizes_cm) hours.push_back(ground.run({.dbh_cm = dbh_cm}).dose_h());
  const auto [shortest, longest] = std::minmax_element(hours.begin(), hours.end());
  return *longest / *shortest;
}

// Longest over shortest time of 134 sampled elms of 25 to 95 cm; the middle of nine such samples.
double extremes_of_134(const TrialGround& ground) {
  std::vector<double> sizes_cm, folds;
  for (int i = 0; i < 17; ++i) sizes_cm.push_back(25.0 + 70.0 * i / 16.0);
  for (std::uint64_t seed = 1; seed <= 9; ++seed) {
    auto hours = ground.sampled_dose_h({}, sizes_cm, seed);
    hours.resize(134);
    const auto [shortest, longest] = std::minmax_element(hours.begin(), hours.end());
    folds.push_back(*longest / *shortest);
  }
  std::nth_element(folds.begin(), folds.begin() + 4, folds.end());
  return folds[4];
}

// Mean flow of the first five minutes into the published hole at the published pressure, mL/min.
double single_hole(const TrialGround& ground, double dbh_cm, const std::string& species = "ulmus_americana") {
  constexpr double five_minutes_h = 5.0 / 60.0;
  const Trial trial{.dbh_cm = dbh_cm, .species = species, .pressure_kpa = 69.0, .one_reference_hole = true};
  return ground.run(trial).volume_l(five_minutes_h) / five_minutes_h * 1000.0 / 60.0;
}

double good_rate(const TrialGround& ground) {
  const Course course = ground.run({});
  return course.rate_l_h(course.dose_h());
}

using Compute = std::function<double(const TrialGround&)>;

const std::map<std::string, Compute, std::less<>>& computations() {
  using Ground = const TrialGround&;
  static const std::map<std::string, Compute, std::less<>> table{
      {"hours_very_large", [](Ground g) { return g.run({}).dose_h(); }},
      {"share_first_55_min", [](Ground g) { return g.run({}).share(55.0 / 60.0); }},
      {"sizes_25_95",
       [](Ground g) {
         return spread_over_sizes(g, {25, 35, 50, 75, 95});
       }},
      {"sizes_25_140",
       [](Ground g) {
         return spread_over_sizes(g, {25, 35, 50, 75, 95, 120, 140});
       }},
      {"extremes_134", extremes_of_134},
      {"overcast_140", [](Ground g) { return slower(g, {.day = "overcast"}, {}); }},
      {"overcast_50", [](Ground g) { return slower(g, {.day = "overcast", .dbh_cm = 50}, {.dbh_cm = 50}); }},
      {"rain_share_10h", [](Ground g) { return g.run({.day = "rain"}).share(10.0); }},
      {"rain_rate_10h", [](Ground g) { return g.run({.day = "rain"}).rate_l_h(10.0) / good_rate(g); }},
      {"late_day", [](Ground g) { return slower(g, {.start_h = 18}, {}); }},
      {"dry_soil", [](Ground g) { return slower(g, {.rew = 0.2}, {}); }},
      {"very_dry_soil", [](Ground g) { return slower(g, {.rew = 0.1}, {.rew = 0.2}); }},
      {"hot_noon", [](Ground g) { return slower(g, {.day = "hot", .start_h = 12}, {.start_h = 12}); }},
      {"no_leaves_10h", [](Ground g) { return g.run({.leaf_share = 0.0}).rate_l_h(10.0) / good_rate(g); }},
      {"cold_soil", [](Ground g) { return slower(g, {.soil_temp_c = 4.0}, {}); }},
      {"single_hole_16", [](Ground g) { return single_hole(g, 16); }},
      {"single_hole_20", [](Ground g) { return single_hole(g, 20); }},
      {"single_hole_25", [](Ground g) { return single_hole(g, 25); }},
      {"single_hole_red_oak", [](Ground g) { return single_hole(g, 20, "quercus_rubra"); }},
      {"single_hole_white_oak", [](Ground g) { return single_hole(g, 20, "quercus_alba"); }},
      {"single_hole_beech", [](Ground g) { return single_hole(g, 20, "fagus_grandifolia"); }},
      {"single_hole_sugar_maple", [](Ground g) { return single_hole(g, 20, "acer_saccharum"); }},
      {"single_hole_white_ash", [](Ground g) { return single_hole(g, 20, "fraxinus_americana"); }},
      {"single_hole_white_pine", [](Ground g) { return single_hole(g, 20, "pinus_strobus"); }},
      {"water_use_25", [](Ground g) { return g.transpired_l({.dbh_cm = 25}); }},
      {"water_use_140", [](Ground g) { return g.transpired_l({}); }},
      {"water_use_leaf_linden",
       [](Ground g) {
         const Trial linden{.dbh_cm = 20, .species = "tilia_americana"};
         return g.transpired_l(linden) / g.leaf_area_m2(linden);
       }},
  };
  return table;
}

}  // namespace

units::Result<std::vector<FactLine>> check_facts(const params::Models& models, const params::Facts& facts) {
  const TrialGround ground{models, facts};
  std::vector<FactLine> lines;
  for (const params::Fact& fact : facts.facts) {
    const auto compute = computations().find(fact.key);
    if (compute == computations().end()) return units::fault("facts.json: facts", fact.key, "expected a fact that the program computes");
    try {
      const double model = compute->second(ground);
      lines.push_back({fact, model, model >= fact.lowest && model <= fact.highest});
    } catch (const std::out_of_range& missing) {
      return units::fault("facts.json: " + fact.key, missing.what(), "expected the days and species that this fact needs");
    }
  }
  return lines;
}

}  // namespace app
