// What crews that lost their day could do meanwhile: dig, measure and lay out for trees booked soon after.
#pragma once
#include "app/plan_proposal.h"

namespace app {

// By day, then crew; each tree once. Only where the locate ticket and the client's consent hold that day, and the site is open.
[[nodiscard]] std::vector<Preparation> preparations(const Common& common, const PlanBook& book, const plan::Schedule& schedule);

}  // namespace app
