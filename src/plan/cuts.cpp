#include "plan/cuts.h"

#include <algorithm>
#include <map>

namespace plan {
namespace {

using Pair = std::array<int, 2>;

struct Together {
  std::map<Pair, double> pairs;      // how much of the columns hold both
  std::map<Triple, double> triples;  // how much hold all three
  std::map<int, std::vector<int>> partners;
};

Together count(const Pool& pool, const std::vector<double>& shares) {
  constexpr double nothing = 1e-6;
  Together together;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    // A column taken in full shares its jobs with no other.
    if (shares[i] < nothing || shares[i] > 1.0 - nothing) continue;
    const auto stops = pool.columns()[i].stops.jobs();
    for (std::size_t a = 0; a < stops.size(); ++a)
      for (std::size_t b = a + 1; b < stops.size(); ++b) {
        together.pairs[{stops[a], stops[b]}] += shares[i];
        for (std::size_t c = b + 1; c < stops.size(); ++c) together.triples[{stops[a], stops[b], stops[c]}] += shares[i];
      }
  }
  for (const auto& [pair, share] : together.pairs) {
    together.partners[pair[0]].push_back(pair[1]);
    together.partners[pair[1]].push_back(pair[0]);
  }
  return together;
}

double of_pair(const Together& together, int a, int b) {
  const auto found = together.pairs.find({std::min(a, b), std::max(a, b)});
  return found == together.pairs.end() ? 0.0 : found->second;
}

}  // namespace

bool holds_two(const Triple& triple, const Stops& stops) {
  int held = 0;
  for (const int job : stops.jobs()) held += job == triple[0] || job == triple[1] || job == triple[2] ? 1 : 0;
  return held >= 2;
}

std::vector<Triple> broken_triples(const Pool& pool, const std::vector<double>& shares, std::size_t most) {
  constexpr double worth_it = 0.02;
  constexpr int most_a_job = 5;
  const Together together = count(pool, shares);
  std::map<Triple, double> broken;
  // Two of the three pairs must occur: `hub` is in both.
  for (const auto& [hub, partners] : together.partners)
    for (std::size_t a = 0; a < partners.size(); ++a)
      for (std::size_t b = a + 1; b < partners.size(); ++b) {
        Triple triple{hub, partners[a], partners[b]};
        std::ranges::sort(triple);
        const auto all = together.triples.find(triple);
        const double held = of_pair(together, triple[0], triple[1]) + of_pair(together, triple[0], triple[2]) +
                            of_pair(together, triple[1], triple[2]) - 2.0 * (all == together.triples.end() ? 0.0 : all->second);
        if (held > 1.0 + worth_it) broken[triple] = held - 1.0;
      }
  std::vector<std::pair<double, Triple>> worst;
  for (const auto& [triple, by] : broken) worst.emplace_back(by, triple);
  std::ranges::stable_sort(worst, std::ranges::greater{}, &std::pair<double, Triple>::first);
  std::vector<Triple> chosen;
  std::map<int, int> used;
  for (const auto& [by, triple] : worst) {
    if (chosen.size() == most) break;
    if (std::ranges::any_of(triple, [&](int job) { return used[job] >= most_a_job; })) continue;
    for (const int job : triple) ++used[job];
    chosen.push_back(triple);
  }
  return chosen;
}

}  // namespace plan
