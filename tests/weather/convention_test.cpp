#include "weather/convention.h"

#include <doctest/doctest.h>

#include "support/within.h"
#include "weather/at.h"

using namespace weather;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

SeriesBuilder model(int now = 0) { return {Origin::model, at(now)}; }

Series built(const SeriesBuilder& builder) {
  REQUIRE(builder.extent());
  return builder.build(*builder.extent());
}

// The labels at which a variable has a value, as hours of the tests' day.
std::vector<int> labels(const Series& series, Variable variable) {
  std::vector<int> found;
  for (std::size_t hour = 0; hour < series.hours(); ++hour)
    if (series[variable].has(hour)) found.push_back(static_cast<int>((series.label(hour) - at(0)).count()));
  return found;
}

}  // namespace

TEST_SUITE("weather") {
  TEST_CASE("a value held over an interval is there at each full hour from its start until just before its end") {
    SeriesBuilder builder = model();
    REQUIRE(builder.add(Variable::temperature, IntervalHold{at(12), at(15), 26.0}));
    REQUIRE(builder.add(Variable::temperature, IntervalHold{at(15), at(16), 27.0}));
    const Series series = built(builder);
    CHECK(labels(series, Variable::temperature) == std::vector{12, 13, 14, 15});
    CHECK(series.at(Variable::temperature, 2) == 26.0);
    CHECK(series.at(Variable::temperature, 3) == 27.0);
  }

  TEST_CASE("a chance held over an interval belongs to the hours that start in it") {
    SeriesBuilder builder = model();
    REQUIRE(builder.add(Variable::rain_chance, IntervalHold{at(12), at(15), 40.0}));
    CHECK(labels(built(builder), Variable::rain_chance) == std::vector{13, 14, 15});
  }

  TEST_CASE("an interval that begins and ends off the hour holds at the full hours inside it") {
    SeriesBuilder builder = model();
    REQUIRE(builder.add(Variable::temperature, IntervalHold{at(12) + minutes{10}, at(14) + minutes{10}, 20.0}));
    CHECK(labels(built(builder), Variable::temperature) == std::vector{13, 14});
  }

  TEST_CASE("an interval total is spread evenly over its hours and called derived") {
    SeriesBuilder builder = model();
    REQUIRE(builder.add(Variable::rain, IntervalTotal{at(6), at(12), 9.0}));
    const Series series = built(builder);
    CHECK(labels(series, Variable::rain) == std::vector{7, 8, 9, 10, 11, 12});
    double sum = 0.0;
    for (std::size_t hour = 0; hour < series.hours(); ++hour) {
      sum += *series.at(Variable::rain, hour);
      CHECK(series[Variable::rain].provenance(hour) == Provenance::derived);
    }
    CHECK(sum == within(9.0, 1e-12));
  }

  TEST_CASE("a sum of the following hour is labelled an hour later, one of the preceding hour where it stands") {
    SeriesBuilder following = model(), preceding = model();
    REQUIRE(following.add(Variable::rain, SumOfFollowingHour{at(10), 1.5}));
    REQUIRE(preceding.add(Variable::rain, SumOfPrecedingHour{at(10), 1.5}));
    CHECK(labels(built(following), Variable::rain) == std::vector{11});
    CHECK(labels(built(preceding), Variable::rain) == std::vector{10});
  }

  TEST_CASE("a variable refuses a sample of another hour convention") {
    SeriesBuilder builder = model();
    const auto rain = builder.add(Variable::rain, Instant{at(1), 1.0});
    REQUIRE(!rain);
    CHECK(rain.error().expected == "expected another hour convention for rain_mm");
    CHECK(!builder.add(Variable::temperature, MeanOfPrecedingHour{at(1), 1.0}));
    CHECK(!builder.add(Variable::shortwave, Instant{at(1), 1.0}));
    CHECK(!builder.add(Variable::gust, IntervalTotal{at(1), at(2), 1.0}));
    CHECK(!builder.extent());
  }

  TEST_CASE("hour_ending speaks of every variable in its own convention") {
    SeriesBuilder builder = model();
    for (std::size_t v = 0; v < variable_count; ++v) {
      const auto variable = static_cast<Variable>(v);
      CHECK(builder.add(variable, hour_ending(variable, at(5), 40.0)));
    }
    const Series series = built(builder);
    CHECK(series.hours() == 1);
    for (std::size_t v = 0; v < variable_count; ++v) CHECK(series.at(static_cast<Variable>(v), 0) == 40.0);
  }

  TEST_CASE("a time that repeats, goes back or lies off the full hour is refused") {
    SeriesBuilder builder = model();
    REQUIRE(builder.add(Variable::temperature, Instant{at(5), 20.0}));
    CHECK(builder.add(Variable::temperature, Instant{at(5), 20.0}).error().line() ==
          ": '2026-07-15T05:00Z': expected a time after 2026-07-15T05:00Z");
    CHECK(!builder.add(Variable::temperature, Instant{at(4), 20.0}));
    CHECK(builder.add(Variable::temperature, Instant{at(6) + minutes{30}, 20.0}).error().expected == "expected a full hour");
    CHECK(!builder.add(Variable::rain, IntervalTotal{at(6) + minutes{30}, at(8), 1.0}));
    CHECK(!builder.add(Variable::rain, IntervalTotal{at(8), at(8), 1.0}));
    CHECK(builder.add(Variable::temperature, Instant{at(6), 20.0}));
  }

  TEST_CASE("a value outside what can be weather is refused with its limits") {
    SeriesBuilder builder = model();
    for (const double rh : {0.0, 150.0}) CHECK(!builder.add(Variable::relative_humidity, Instant{at(1), rh}));
    const auto hot = builder.add(Variable::temperature, Instant{at(1), 212.0});
    REQUIRE(!hot);
    CHECK(hot.error().found == "212");
    CHECK(hot.error().expected == "expected temp_c from -60 to 60");
    const SoilColumn top{units::Metres{0.0}, units::Metres{0.1}, SoilQuantity::moisture};
    CHECK(!builder.add(top, Instant{at(1), 1.2}));
  }

  TEST_CASE("a typing error in a year does not ask for a century of memory") {
    SeriesBuilder builder = model();
    REQUIRE(builder.add(Variable::temperature, Instant{at(1), 20.0}));
    CHECK(!builder.add(Variable::temperature, Instant{at(1) + 2 * longest_series, 20.0}));
  }

  TEST_CASE("hours at or before now are observed at a station and analysed by a model, later ones are forecast") {
    SeriesBuilder station{Origin::station, at(6)}, run{Origin::model, at(6)};
    for (int hour = 5; hour <= 7; ++hour) {
      REQUIRE(station.add(Variable::temperature, Instant{at(hour), 20.0}));
      REQUIRE(run.add(Variable::temperature, Instant{at(hour), 20.0}));
    }
    const Series seen = built(station), modelled = built(run);
    CHECK(seen[Variable::temperature].provenance(1) == Provenance::observed);
    CHECK(seen[Variable::temperature].provenance(2) == Provenance::forecast);
    CHECK(modelled[Variable::temperature].provenance(1) == Provenance::analysed);
    CHECK(modelled[Variable::temperature].provenance(2) == Provenance::forecast);
  }

  TEST_CASE("soil columns of one depth share a layer, and layers lie from the surface down") {
    using units::Metres;
    SeriesBuilder builder = model();
    REQUIRE(builder.add(SoilColumn{Metres{0.1}, Metres{0.4}, SoilQuantity::moisture}, Instant{at(1), 0.30}));
    REQUIRE(builder.add(SoilColumn{Metres{0.0}, Metres{0.1}, SoilQuantity::temperature}, Instant{at(1), 18.0}));
    REQUIRE(builder.add(SoilColumn{Metres{0.0}, Metres{0.1}, SoilQuantity::moisture}, Instant{at(2), 0.25}));
    const Series series = built(builder);
    REQUIRE(series.soil.size() == 2);
    CHECK(series.soil[0].bottom == Metres{0.1});
    CHECK(series.soil[0].temperature_c.at(0) == 18.0);
    CHECK(series.soil[0].moisture_m3_m3.at(0) == std::nullopt);
    CHECK(series.soil[0].moisture_m3_m3.at(1) == 0.25);
    CHECK(series.soil[1].moisture_m3_m3.at(0) == 0.30);
  }
}
