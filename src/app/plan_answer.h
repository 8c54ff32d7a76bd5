// `plan accept`, `plan refuse`: moves of the open proposal, one by one or together.
#pragma once
#include <string>
#include <vector>

#include "app/outcome.h"
#include "app/request.h"

namespace app {

struct PlanAnswerRequest {
  bool accept = true;
  std::vector<std::string> moves;  // ids
  bool all = false;                // every open move; accepting, those that can wait only with `waiting`
  bool waiting = false;
  std::string why;
};

// In one transaction: the bookings, the moves, and a draft to every client whose day or hour changes. A move that needs another one is
// refused without it; a job that somebody changed meanwhile is a conflict that shows both versions.
[[nodiscard]] Outcome plan_answer_command(const Common& common, const PlanAnswerRequest& request);

}  // namespace app
