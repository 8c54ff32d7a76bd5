// The small invented books that lie outside the tree: the best values known for them, proven best by other programs or by ours.
#include <doctest/doctest.h>

#include <string>

#include "app/files.h"
#include "app/plan_file.h"
#include "plan/check_plan.h"
#include "plan/solve.h"
#include "support/outside.h"

TEST_SUITE("outside books") {
  TEST_CASE("the small books are planned as well as is known to be possible, before and after rain") {
    const auto folder = outside_data("plans");
    if (!folder) return;
    struct Row {
      const char* name;
      double best;
    };
    // ../data/plans/README.md: S-1 is proven, the others are the best known, rounded there to two or four decimals.
    for (const auto& [name, best] : {Row{"S-1", 102.8148}, Row{"S-2", 108.4060}, Row{"S-3", 93.1884}, Row{"S-1-rain", 96.98}}) {
      CAPTURE(name);
      const auto content = app::read_file(*folder / (std::string(name) + ".json"));
      REQUIRE(content.has_value());
      const auto instance = app::read_instance(*content, name);
      REQUIRE(instance.has_value());
      const auto answer = plan::solve(*instance, {1, 1000000, {}});
      REQUIRE(answer.has_value());
      CHECK(plan::check_plan(*instance, answer->plan).broken.empty());
      CHECK(answer->objective >= best - 0.0001);
      CHECK(answer->bound <= answer->objective + 1e-4);
    }
  }
}
