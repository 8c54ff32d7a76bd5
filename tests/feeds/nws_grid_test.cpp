#include <doctest/doctest.h>

#include "feeds/reading.h"
#include "feeds/samples.h"
#include "support/within.h"

using weather::Provenance;
using weather::Variable;

TEST_SUITE("feeds") {
  TEST_CASE("an NWS interval's value holds at each full hour from its start until its end") {
    const auto series = read_one(samples::nws_grid).control;
    CHECK(series.first_label() == utc("2026-07-06T06:00Z"));
    CHECK(value_at(series, Variable::temperature, "2026-07-06T07:00Z") == 18.5);
    CHECK(value_at(series, Variable::temperature, "2026-07-06T08:00Z") == 26.11111111111111);
    CHECK(value_at(series, Variable::temperature, "2026-07-07T08:00Z") == 26.11111111111111);
    CHECK(!value_at(series, Variable::temperature, "2026-07-07T09:00Z"));
    CHECK(value_at(series, Variable::dew_point, "2026-07-06T08:00Z") == 0.0);
    CHECK(!value_at(series, Variable::dew_point, "2026-07-06T09:00Z"));
    CHECK(*value_at(series, Variable::wind, "2026-07-06T11:00Z") == within(5.0, 1e-12));
  }

  TEST_CASE("an NWS rain total is spread over its hours, and where the layer ends rain is missing and not zero") {
    const auto series = read_one(samples::nws_grid).control;
    CHECK(!value_at(series, Variable::rain, "2026-07-06T06:00Z"));
    for (const auto label : {"2026-07-06T07:00Z", "2026-07-06T12:00Z"}) {
      CHECK(value_at(series, Variable::rain, label) == 0.5);
      CHECK(provenance_at(series, Variable::rain, label) == Provenance::derived);
    }
    CHECK(value_at(series, Variable::rain, "2026-07-06T13:00Z") == 2.0);
    CHECK(provenance_at(series, Variable::rain, "2026-07-06T13:00Z") == Provenance::forecast);
    CHECK(!value_at(series, Variable::rain, "2026-07-06T14:00Z"));
  }

  TEST_CASE("NWS thunder is the larger of the stated chance and the forecaster's word") {
    const auto series = read_one(samples::nws_grid).control;
    CHECK(value_at(series, Variable::thunder_chance, "2026-07-06T07:00Z") == 15.0);
    CHECK(value_at(series, Variable::thunder_chance, "2026-07-06T10:00Z") == 50.0);
    CHECK(value_at(series, Variable::thunder_chance, "2026-07-06T13:00Z") == 100.0);
    CHECK(!value_at(series, Variable::thunder_chance, "2026-07-06T15:00Z"));
  }

  TEST_CASE("chances and gusts belong to the hours that start in their interval, empty and unknown layers to none") {
    const auto series = read_one(samples::nws_grid).control;
    CHECK(!value_at(series, Variable::rain_chance, "2026-07-06T06:00Z"));
    CHECK(value_at(series, Variable::rain_chance, "2026-07-06T12:00Z") == 30.0);
    CHECK(value_at(series, Variable::gust, "2026-07-06T08:00Z") == 9.0);
    CHECK(!value_at(series, Variable::gust, "2026-07-06T09:00Z"));
    CHECK(series[Variable::cloud].empty());
    CHECK(series[Variable::shortwave].empty());
  }

  TEST_CASE("an NWS grid knows its cell, its elevation and its hour of issue") {
    const auto forecast = read_one(samples::nws_grid);
    CHECK(forecast.source == "National Weather Service MAP 12,34");
    CHECK(forecast.place->latitude.value == within(44.3, 1e-9));
    CHECK(forecast.place->longitude.value == within(-93.3, 1e-9));
    CHECK(forecast.place->elevation.value == 300.5);
    CHECK(forecast.issued_at == utc("2026-07-06T09:00Z"));
    CHECK(forecast.warnings.empty());
    CHECK(provenance_at(forecast.control, Variable::temperature, "2026-07-06T12:00Z") == Provenance::analysed);
    CHECK(provenance_at(forecast.control, Variable::temperature, "2026-07-06T13:00Z") == Provenance::forecast);
  }

  TEST_CASE("a grid issued more than 12 hours ago is called stale while it still has hours ahead") {
    auto options = noon();
    options.now = utc("2026-07-06T21:30Z");
    REQUIRE(read_one(samples::nws_grid, options).warnings.size() == 1);
    CHECK(read_one(samples::nws_grid, options).warnings[0] ==
          "National Weather Service MAP 12,34: issued 2026-07-06T09:00Z, more than 12 h ago: a stale copy");
    options.now = utc("2027-07-06T21:30Z");
    CHECK(read_one(samples::nws_grid, options).warnings.empty());
  }
}
