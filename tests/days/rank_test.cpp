#include "days/rank.h"

#include <doctest/doctest.h>

using days::DayAnswer;
using days::Verdict;

namespace {

// Draws that scatter around the cost as a common tree would have it, so that days differ alike in each.
std::vector<DayAnswer> with(const std::vector<std::pair<Verdict, double>>& days) {
  std::vector<DayAnswer> answers;
  for (const auto& [verdict, cost_h] : days) {
    DayAnswer answer;
    answer.verdict = verdict;
    answer.expected_cost_h = cost_h;
    for (int draw = 0; draw < 100; ++draw) answer.cost_by_draw_h.push_back(cost_h + 0.1 * (draw - 49.5));
    answers.push_back(answer);
  }
  return answers;
}

// Days of equal verdict of which the first is cheaper in `wins` of a hundred draws, dearer in `losses`, and like the second in the rest.
std::vector<DayAnswer> duel(int wins, int losses) {
  auto answers = with({{Verdict::go, 7.0}, {Verdict::go, 8.0}});
  for (int draw = 0; draw < 100; ++draw) {
    answers[0].cost_by_draw_h[static_cast<std::size_t>(draw)] = 5.0;
    answers[1].cost_by_draw_h[static_cast<std::size_t>(draw)] = draw < wins ? 9.0 : draw < wins + losses ? 4.0 : 5.0;
  }
  return answers;
}

days::Decision decision() {
  days::Decision decision;
  decision.tie_sureness = 0.67;
  decision.tie_least_h = 0.5;
  return decision;
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("GO stands before TIGHT before NO GO, whatever they cost, and the cheaper first inside each") {
    const auto ranked = days::rank(
        with({{Verdict::no_go, 1}, {Verdict::tight, 4}, {Verdict::go, 9}, {Verdict::no_go, 3}, {Verdict::go, 7}, {Verdict::tight, 2}}),
        decision());
    const std::vector<std::size_t> order{4, 2, 5, 1, 0, 3};
    REQUIRE(ranked.size() == order.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
      CHECK(ranked[i].day == order[i]);
      CHECK(ranked[i].rank == static_cast<int>(i) + 1);
      CHECK_FALSE(ranked[i].tied);
    }
  }

  TEST_CASE("days closer than the least that counts share a rank and stand in calendar order, and the next rank counts them all") {
    const auto ranked = days::rank(with({{Verdict::go, 7.4}, {Verdict::go, 9.0}, {Verdict::go, 7.0}, {Verdict::go, 7.3}}), decision());
    const std::vector<std::size_t> order{0, 2, 3, 1};
    const std::vector<int> ranks{1, 1, 1, 4};
    for (std::size_t i = 0; i < order.size(); ++i) {
      CHECK(ranked[i].day == order[i]);
      CHECK(ranked[i].rank == ranks[i]);
      CHECK(ranked[i].tied == (i < 3));
    }
  }

  TEST_CASE("a tie is measured from the first of its group, so a chain of small steps does not make all days alike") {
    const auto ranked = days::rank(with({{Verdict::go, 7.0}, {Verdict::go, 7.4}, {Verdict::go, 7.8}}), decision());
    CHECK(ranked[0].rank == 1);
    CHECK(ranked[1].rank == 1);
    CHECK(ranked[2].rank == 3);
    CHECK_FALSE(ranked[2].tied);
  }

  TEST_CASE("days tie unless the cheaper is as sure to be so as the owner asks, equal draws counting half") {
    const auto tied = [](int wins, int losses) { return days::rank(duel(wins, losses), decision())[1].tied; };
    CHECK(days::chance_cheaper(duel(60, 30)[0], duel(60, 30)[1]) == 0.65);
    CHECK(tied(60, 30));
    CHECK_FALSE(tied(70, 30));
    CHECK_FALSE(tied(40, 0));
    CHECK(tied(30, 0));
  }

  TEST_CASE("equal costs of different verdicts do not tie, and without days there is no order") {
    const auto ranked = days::rank(with({{Verdict::tight, 7.0}, {Verdict::go, 7.0}}), decision());
    CHECK(ranked[0].day == 1);
    CHECK_FALSE(ranked[0].tied);
    CHECK_FALSE(ranked[1].tied);
    CHECK(days::rank({}, decision()).empty());
  }
}
