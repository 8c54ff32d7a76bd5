#include "weather/blend.h"

#include <doctest/doctest.h>

#include "weather/at.h"

using namespace weather;

namespace {

constexpr auto model = Provenance::forecast;

// Hours [from, until) of a service that says `value` of everything named.
Series says(int from, int until, double value, std::initializer_list<Variable> variables) {
  Series series{at(from), static_cast<std::size_t>(until - from)};
  for (std::size_t hour = 0; hour < series.hours(); ++hour)
    for (const Variable variable : variables) series[variable].set(hour, value, model);
  return series;
}

const std::initializer_list<Variable> grid{Variable::temperature, Variable::dew_point, Variable::cloud, Variable::rain,
                                           Variable::rain_chance};
const std::initializer_list<Variable> far{Variable::temperature, Variable::relative_humidity, Variable::shortwave, Variable::rain,
                                          Variable::pressure};

}  // namespace

TEST_SUITE("weather") {
  TEST_CASE("the most trusted service speaks as far as it goes and the next goes on from there") {
    const Series near = says(0, 12, 20.0, grid), longer = says(6, 30, 25.0, far);
    const Series* both[] = {&near, &longer};
    const Blend blended = blend(both, at(5));
    CHECK(blended.control.first_label() == at(0));
    CHECK(blended.control.hours() == 30);
    CHECK(blended.control.at(Variable::temperature, 11) == 20.0);
    CHECK(blended.control.at(Variable::temperature, 12) == 25.0);
    CHECK(blended.speaker[11] == 0);
    CHECK(blended.speaker[12] == 1);
    CHECK(blended.control[Variable::temperature].provenance(12) == model);
  }

  TEST_CASE("what the speaker does not give comes from the next that does, but what belongs together stays together") {
    const Series near = says(0, 12, 20.0, grid), longer = says(0, 12, 25.0, far);
    const Series* both[] = {&near, &longer};
    const Series& control = blend(both, at(0)).control;
    CHECK(control.at(Variable::pressure, 3) == 25.0);
    // The near service's cloud speaks for the sky, so the other's sun stays out; its humidity is a dew point, and stays one.
    CHECK_FALSE(control.at(Variable::shortwave, 3).has_value());
    CHECK_FALSE(control.at(Variable::relative_humidity, 3).has_value());
    const Series* turned[] = {&longer, &near};
    const Series& other = blend(turned, at(0)).control;
    CHECK_FALSE(other.at(Variable::cloud, 3).has_value());
    CHECK_FALSE(other.at(Variable::rain_chance, 3).has_value());
  }

  TEST_CASE("where a service's rain ends a day before its temperature the other's rain goes on") {
    Series near = says(0, 12, 20.0, grid);
    for (std::size_t hour = 8; hour < 12; ++hour) near[Variable::rain].set(hour, 0.0, Provenance::missing);
    const Series longer = says(0, 12, 0.5, far);
    const Series* both[] = {&near, &longer};
    const Series& control = blend(both, at(0)).control;
    CHECK(control.at(Variable::rain, 9) == 0.5);
    CHECK(control.at(Variable::temperature, 9) == 20.0);
    // The first one's chance speaks of an amount it did not give.
    CHECK_FALSE(control.at(Variable::rain_chance, 9).has_value());
  }

  TEST_CASE("two services ahead are two opinions of one past, and one service is none") {
    const Series near = says(0, 20, 20.0, grid), longer = says(0, 30, 25.0, far);
    const Series* both[] = {&near, &longer};
    const Blend blended = blend(both, at(10));
    REQUIRE(blended.opinions.size() == 2);
    CHECK(blended.opinions[0].at(Variable::temperature, 12) == 20.0);
    CHECK(blended.opinions[1].at(Variable::temperature, 12) == 25.0);
    CHECK(blended.opinions[1].at(Variable::temperature, 10) == 20.0);  // label 10 is past
    // Where the first has ended both follow the other.
    CHECK(blended.opinions[0].at(Variable::temperature, 25) == 25.0);

    const Series record = says(0, 10, 15.0, grid);
    const Series* with_past[] = {&record, &longer};
    CHECK(blend(with_past, at(10)).opinions.empty());
    CHECK(blend(with_past, at(10)).control.at(Variable::temperature, 4) == 15.0);
    CHECK(blend({}, at(0)).control.hours() == 0);
  }

  TEST_CASE("soil layers are one service's own") {
    Series near = says(0, 4, 20.0, grid), wet = says(2, 6, 25.0, far);
    wet.soil.push_back({units::Metres{0.0}, units::Metres{0.1}, Column{4}, Column{4}});
    wet.soil[0].moisture_m3_m3.set(1, 0.3, model);
    const Series* both[] = {&near, &wet};
    const Series& control = blend(both, at(0)).control;
    REQUIRE(control.soil.size() == 1);
    CHECK(control.soil[0].moisture_m3_m3.at(3) == 0.3);
    CHECK_FALSE(control.soil[0].moisture_m3_m3.has(2));
  }
}
