#include "weather/gaps.h"

#include <doctest/doctest.h>

#include "support/within.h"
#include "weather/at.h"

using namespace weather;

namespace {

// Twelve hours from 00:00 in which `variable` has the value of its hour except in [from, until).
Series with_hole(Variable variable, std::size_t from, std::size_t until, Provenance provenance = Provenance::observed) {
  Series series{at(0), 12};
  for (std::size_t hour = 0; hour < 12; ++hour)
    if (hour < from || hour >= until) series[variable].set(hour, 10.0 + static_cast<double>(hour), provenance);
  return series;
}

}  // namespace

TEST_SUITE("weather") {
  TEST_CASE("a hole of three hours is bridged linearly and marked filled") {
    Series series = with_hole(Variable::temperature, 4, 7);
    CHECK(bridge_gaps(series).empty());
    for (std::size_t hour = 4; hour < 7; ++hour) {
      CHECK(*series.at(Variable::temperature, hour) == within(10.0 + static_cast<double>(hour), 1e-12));
      CHECK(series[Variable::temperature].provenance(hour) == Provenance::filled);
    }
    CHECK(series[Variable::temperature].provenance(7) == Provenance::observed);
  }

  TEST_CASE("a hole of four measured hours stays and is reported with its first and last hour") {
    Series series = with_hole(Variable::temperature, 4, 8);
    const auto gaps = bridge_gaps(series);
    REQUIRE(gaps.size() == 1);
    CHECK(gaps[0].variable == Variable::temperature);
    CHECK(gaps[0].from == at(4));
    CHECK(gaps[0].until == at(7));
    CHECK(gaps[0].hours.count() == 4);
    CHECK(!series.at(Variable::temperature, 5));
  }

  TEST_CASE("between two hours of a model its own six-hourly step is bridged, a longer hole is not") {
    Series step = with_hole(Variable::temperature, 4, 9, Provenance::forecast);
    Series longer = with_hole(Variable::temperature, 4, 10, Provenance::forecast);
    CHECK(bridge_gaps(step).empty());
    CHECK(*step.at(Variable::temperature, 6) == within(16.0, 1e-12));
    CHECK(bridge_gaps(longer).size() == 1);
  }

  TEST_CASE("rain and gusts are never bridged, not even over one hour") {
    for (const Variable variable : {Variable::rain, Variable::gust, Variable::rain_chance, Variable::thunder_chance}) {
      Series series = with_hole(variable, 4, 5);
      REQUIRE(bridge_gaps(series).size() == 1);
      CHECK(!series.at(variable, 4));
    }
  }

  TEST_CASE("what is missing before the first value and after the last is not a gap") {
    Series series{at(0), 12};
    series[Variable::temperature].set(5, 20.0, Provenance::observed);
    CHECK(bridge_gaps(series).empty());
    CHECK(!series.at(Variable::temperature, 4));
    CHECK(!series.at(Variable::temperature, 6));
    Series nothing{at(0), 12};
    CHECK(bridge_gaps(nothing).empty());
    CHECK(nothing[Variable::temperature].empty());
  }

  TEST_CASE("soil layers are bridged too") {
    Series series{at(0), 5};
    series.soil.push_back({units::Metres{0.0}, units::Metres{0.1}, Column{5}, Column{5}});
    series.soil[0].moisture_m3_m3.set(0, 0.30, Provenance::analysed);
    series.soil[0].moisture_m3_m3.set(4, 0.26, Provenance::analysed);
    bridge_gaps(series);
    CHECK(*series.soil[0].moisture_m3_m3.at(2) == within(0.28, 1e-12));
    CHECK(series.soil[0].temperature_c.empty());
  }
}
