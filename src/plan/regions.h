// A large book in pieces: crews of neighbouring depots with all their days, each solved as a part of its own.
#pragma once
#include <vector>

#include "plan/ground.h"

namespace plan {

// Every slot with hours or locked jobs, in groups of about `size` by nearness of the crews' depots.
[[nodiscard]] std::vector<std::vector<int>> regions(const Ground& ground, int size);

}  // namespace plan
