// Crews as the plan sees them: where they start, when they work, how much water and how many pumps they have.
#pragma once
#include "app/outcome.h"
#include "app/plan_book.h"
#include "app/plan_facts.h"

namespace app {

// Fills teams and rigs of the office, whose days begin at `first_day`. `place`: a point of the plane for a latitude and longitude.
void add_teams(const Common& common, const PlanFacts& facts, const std::vector<WhatIf>& ifs, units::LocalDay first_day,
               const std::function<plan::Point(double, double)>& place, plan::Office& office, Outcome& outcome);

}  // namespace app
