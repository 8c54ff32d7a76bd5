#include "days/rank.h"

#include <algorithm>
#include <numeric>

namespace days {

double chance_cheaper(const DayAnswer& a, const DayAnswer& b) {
  double cheaper = 0.0;
  for (std::size_t i = 0; i < a.cost_by_draw_h.size(); ++i) {
    const double more = b.cost_by_draw_h[i] - a.cost_by_draw_h[i];
    cheaper += more > 0.0 ? 1.0 : more < 0.0 ? 0.0 : 0.5;
  }
  return cheaper / static_cast<double>(a.cost_by_draw_h.size());
}

std::vector<Ranked> rank(const std::vector<DayAnswer>& answers, const Decision& decision) {
  const auto ties = [&](const DayAnswer& first, const DayAnswer& other) {
    return other.verdict == first.verdict &&
           (other.expected_cost_h - first.expected_cost_h < decision.tie_least_h || chance_cheaper(first, other) < decision.tie_sureness);
  };
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
    while (end < order.size() && ties(first, answers[order[end]])) ++end;
    std::sort(order.begin() + static_cast<std::ptrdiff_t>(begin), order.begin() + static_cast<std::ptrdiff_t>(end));
    for (std::size_t i = begin; i < end; ++i) ranked.push_back({order[i], static_cast<int>(begin) + 1, end - begin > 1});
  }
  return ranked;
}

}  // namespace days
