#include "sapflow/spread.h"

#include <doctest/doctest.h>

#include <cmath>

#include "support/within.h"

namespace {

// Errors of -10 to 10 % of the flow in whole percents, all alike (as even as +-10.5 % is), at every flow from 0 to 1.
std::vector<sapflow::Miss> even_misses(double level_variance = 0.0) {
  std::vector<sapflow::Miss> all;
  for (int i = 0; i < 1000; ++i)
    for (int error = -10; error <= 10; ++error) {
      const double flow = 0.001 * i;
      all.push_back({flow, flow * (1.0 + 0.01 * error), 0.0, level_variance});
    }
  return all;
}

}  // namespace

TEST_SUITE("sapflow") {
  TEST_CASE("the range is that of errors made, wider where flow is larger") {
    const sapflow::Spread spread{even_misses(), 1.0};
    const auto at = spread.around(0.55, 0.0, 0.0);
    CHECK(at.p50 == 0.55);
    CHECK(at.p90 - at.p50 == within(0.8 * 0.105 * 0.55, 0.001));
    CHECK(at.p50 - at.p10 == within(0.8 * 0.105 * 0.55, 0.001));
    const auto small = spread.around(0.15, 0.0, 0.0);
    CHECK(small.p90 - small.p10 < 0.4 * (at.p90 - at.p10));
  }

  TEST_CASE("errors go with the level") {
    const sapflow::Spread spread{even_misses(), 1.0};
    const auto whole = spread.around(0.5, 0.0, 0.0), half = spread.around(0.5, std::log(0.5), 0.0);
    CHECK(half.p50 == within(0.25, 1e-12));
    CHECK(half.p90 - half.p50 == within(0.5 * (whole.p90 - whole.p50), 1e-12));
    auto halved = even_misses();
    for (sapflow::Miss& miss : halved) miss = {miss.flow, 0.5 * miss.measured, std::log(0.5), 0.0};
    CHECK(sapflow::Spread(halved, 1.0).around(0.5, 0.0, 0.0).p90 == within(whole.p90, 1e-12));
  }

  TEST_CASE("a level worse known than on the misses widens, one better known does not narrow") {
    const sapflow::Spread spread{even_misses(0.01), 1.0};
    const auto same = spread.around(0.5, 0.0, 0.01);
    const double added = 1.2816 * 0.5 * std::sqrt(0.06);
    CHECK(spread.around(0.5, 0.0, 0.07).p90 - 0.5 == within(std::hypot(same.p90 - 0.5, added), 1e-9));
    CHECK(spread.around(0.5, 0.0, 0.0).p90 == same.p90);
  }

  TEST_CASE("fewer independent errors push the quantile outwards") {
    CHECK(sapflow::Spread(even_misses(), 300.0).around(0.5, 0.0, 0.0).p90 > sapflow::Spread(even_misses(), 1.0).around(0.5, 0.0, 0.0).p90);
  }

  TEST_CASE("without misses only the level's doubt is left, and no flow is below nothing") {
    const sapflow::Spread none{{}, 3.0};
    CHECK(none.around(0.5, 0.0, 0.0).p90 == 0.5);
    CHECK(none.around(0.5, 0.0, 4.0).p10 == 0.0);
  }
}
