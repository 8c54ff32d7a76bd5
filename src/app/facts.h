// The fact table: every fact of models/facts.json beside what the shipped numbers give (`sapdraw models --facts`).
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/fact_trial.h"
#include "params/facts.h"
#include "params/models.h"
#include "units/fault.h"

namespace app {

struct FactLine {
  params::Fact fact;
  double model = 0.0;  // in the fact's unit; may be infinite where a dose never goes in
  bool inside = false;
};

// What tree `tree` of a ground gives for a fact; absent where nothing here computes it. Throws as TrialGround.
[[nodiscard]] std::optional<double> fact_figure(const std::string& key, const TrialGround& ground, std::size_t tree = 0);

// The published hole: 11 x 40 mm at 69 kPa, alone in the tree; and the mean flow of its first five minutes, mL/min.
[[nodiscard]] Trial hole_trial(double dbh_cm, const std::string& species);
[[nodiscard]] double hole_ml_min(const Course& course);

// Diameters of the 134 elms of 25 to 95 cm, eight trees each and the last two left out.
[[nodiscard]] std::vector<double> sizes_of_134();

// In the order of the file. Fault: a fact that nothing here computes, or a day or species that it needs and the files
// lack.
[[nodiscard]] units::Result<std::vector<FactLine>> check_facts(const params::Models& models, const params::Facts& facts);

// Header `fact,source,bar_lowest,bar_highest,unit,model,inside`; a row a fact.
[[nodiscard]] std::string facts_csv(const std::vector<FactLine>& lines);
// Aligned, at most 100 columns; the last line counts those inside.
[[nodiscard]] std::string facts_text(const std::vector<FactLine>& lines);

}  // namespace app
