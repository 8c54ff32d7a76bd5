// Cuts: of any three jobs, a plan has at most one crew's day that holds two of them. The linear programme, which splits days, may not.
// Source: subset-row inequalities, Jepsen, Petersen, Spoorendonk & Pisinger 2008 (Operations Research 56:497).
#pragma once
#include <array>
#include <vector>

#include "plan/column.h"

namespace plan {

using Triple = std::array<int, 3>;  // jobs, rising

// Whether the stops hold two of the three.
[[nodiscard]] bool holds_two(const Triple& triple, const Stops& stops);

// The triples that these shares of the pool's columns break by most, at most `most`, worst first.
[[nodiscard]] std::vector<Triple> broken_triples(const Pool& pool, const std::vector<double>& shares, std::size_t most);

}  // namespace plan
