#include "days/rank.h"

#include <algorithm>
#include <numeric>

namespace days {

std::vector<Ranked> rank(const std::vector<DayAnswer>& answers, double tie_h) {
  std::vector<std::size_t> order(answers.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (answers[a].verdict != answers[b].verdict) return answers[a].verdict < answers[b].verdict;
    return answers[a].expected_cost_h < answers[b].expected_cost_h;
  });
  std::vector<Ranked> ranked;
  for (std::size_t begin = 0, end = 0; begin < order.size(); begin = end) {
    const DayAnswer& first = answers[order[begin]];
    end = begin + 1;
    while (end < order.size() && answers[order[end]].verdict == first.verdict &&
           answers[order[end]].expected_cost_h - first.expected_cost_h < tie_h)
      ++end;
    std::sort(order.begin() + static_cast<std::ptrdiff_t>(begin), order.begin() + static_cast<std::ptrdiff_t>(end));
    for (std::size_t i = begin; i < end; ++i) ranked.push_back({order[i], static_cast<int>(begin) + 1, end - begin > 1});
  }
  return ranked;
}

}  // namespace days
