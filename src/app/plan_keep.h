// A proposal into the book, where any desk can answer it.
#pragma once
#include "app/outcome.h"
#include "app/plan_proposal.h"

namespace app {

// In one transaction: earlier proposals that wait for an answer are closed, this one and its moves are written, and get their ids.
void keep_proposal(const Common& common, const PlanBook& book, Proposal& proposal, Outcome& outcome);

}  // namespace app
