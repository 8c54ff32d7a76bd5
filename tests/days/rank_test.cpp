#include "days/rank.h"

#include <doctest/doctest.h>

using days::DayAnswer;
using days::Verdict;

namespace {

std::vector<DayAnswer> with(const std::vector<std::pair<Verdict, double>>& days) {
  std::vector<DayAnswer> answers;
  for (const auto& [verdict, cost_h] : days) {
    DayAnswer answer;
    answer.verdict = verdict;
    answer.expected_cost_h = cost_h;
    answers.push_back(answer);
  }
  return answers;
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("GO stands before TIGHT before NO GO, whatever they cost, and the cheaper first inside each") {
    const auto ranked = days::rank(
        with({{Verdict::no_go, 1}, {Verdict::tight, 4}, {Verdict::go, 9}, {Verdict::no_go, 3}, {Verdict::go, 7}, {Verdict::tight, 2}}),
        0.5);
    const std::vector<std::size_t> order{4, 2, 5, 1, 0, 3};
    REQUIRE(ranked.size() == order.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
      CHECK(ranked[i].day == order[i]);
      CHECK(ranked[i].rank == static_cast<int>(i) + 1);
      CHECK_FALSE(ranked[i].tied);
    }
  }

  TEST_CASE("days closer than a tie share a rank and stand in calendar order, and the next rank counts them all") {
    const auto ranked = days::rank(with({{Verdict::go, 7.4}, {Verdict::go, 9.0}, {Verdict::go, 7.0}, {Verdict::go, 7.3}}), 0.5);
    const std::vector<std::size_t> order{0, 2, 3, 1};
    const std::vector<int> ranks{1, 1, 1, 4};
    for (std::size_t i = 0; i < order.size(); ++i) {
      CHECK(ranked[i].day == order[i]);
      CHECK(ranked[i].rank == ranks[i]);
      CHECK(ranked[i].tied == (i < 3));
    }
  }

  TEST_CASE("a tie is measured from the first of its group, so a chain of small steps does not make all days alike") {
    const auto ranked = days::rank(with({{Verdict::go, 7.0}, {Verdict::go, 7.4}, {Verdict::go, 7.8}}), 0.5);
    CHECK(ranked[0].rank == 1);
    CHECK(ranked[1].rank == 1);
    CHECK(ranked[2].rank == 3);
    CHECK_FALSE(ranked[2].tied);
  }

  TEST_CASE("equal costs of different verdicts do not tie, and without days there is no order") {
    const auto ranked = days::rank(with({{Verdict::tight, 7.0}, {Verdict::go, 7.0}}), 0.5);
    CHECK(ranked[0].day == 1);
    CHECK_FALSE(ranked[0].tied);
    CHECK_FALSE(ranked[1].tied);
    CHECK(days::rank({}, 0.5).empty());
  }
}
