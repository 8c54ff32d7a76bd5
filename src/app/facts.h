// The fact table: every fact of models/facts.json beside what the shipped numbers give (`sapdraw models --facts`).
#pragma once
#include <string>
#include <vector>

#include "params/facts.h"
#include "params/models.h"
#include "units/fault.h"

namespace app {

struct FactLine {
  params::Fact fact;
  double model = 0.0;  // in the fact's unit; may be infinite where a dose never goes in
  bool inside = false;
};

// In the order of the file; seconds of work. Fault: a fact that nothing here computes, or a day or species that it needs and the files
// lack.
[[nodiscard]] units::Result<std::vector<FactLine>> check_facts(const params::Models& models, const params::Facts& facts);

// Header `fact,source,bar_lowest,bar_highest,unit,model,inside`; a row a fact.
[[nodiscard]] std::string facts_csv(const std::vector<FactLine>& lines);
// Aligned, at most 100 columns; the last line counts those inside.
[[nodiscard]] std::string facts_text(const std::vector<FactLine>& lines);

}  // namespace app
