#include "weather/horizon.h"

#include <doctest/doctest.h>

#include "weather/at.h"

using namespace weather;

TEST_SUITE("weather") {
  TEST_CASE("the horizon is the last hour before temperature or all humidity ends") {
    Series series{at(0), 10};
    for (std::size_t hour = 0; hour < 10; ++hour) {
      series[Variable::temperature].set(hour, 20.0, Provenance::forecast);
      if (hour < 4) series[Variable::relative_humidity].set(hour, 50.0, Provenance::forecast);
      if (hour >= 3 && hour < 7) series[Variable::dew_point].set(hour, 10.0, Provenance::forecast);
      series[Variable::rain].set(hour, 0.0, Provenance::forecast);
    }
    CHECK(horizon(series, at(0)) == at(6));
    CHECK(horizon(series, at(6)) == at(6));
    CHECK(!horizon(series, at(7)));
    CHECK(!horizon(series, at(-1)));
    CHECK(!horizon(Series{}, at(0)));
  }
}
