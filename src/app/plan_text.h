// A proposal as a dispatcher reads it, and as JSON for other programs.
#pragma once
#include <string>

#include "app/plan_proposal.h"

namespace app {

[[nodiscard]] std::string plan_text(const Common& common, const PlanBook& book, const Proposal& proposal);
[[nodiscard]] std::string plan_json(const PlanBook& book, const Proposal& proposal);

}  // namespace app
