#include <doctest/doctest.h>

#include "feeds/reading.h"
#include "feeds/samples.h"
#include "support/within.h"
#include "weather/gaps.h"

using weather::Provenance;
using weather::Variable;

TEST_SUITE("feeds") {
  TEST_CASE("MET Norway sums start at their step, and next_6_hours serves only where next_1_hours is not there") {
    const auto series = read_one(samples::met_norway).control;
    CHECK(series.first_label() == utc("2026-07-06T11:00Z"));
    CHECK(!value_at(series, Variable::rain, "2026-07-06T11:00Z"));
    CHECK(value_at(series, Variable::rain, "2026-07-06T12:00Z") == 0.5);
    CHECK(provenance_at(series, Variable::rain, "2026-07-06T12:00Z") == Provenance::analysed);
    for (const auto label : {"2026-07-06T13:00Z", "2026-07-06T18:00Z"}) {
      CHECK(value_at(series, Variable::rain, label) == 1.0);
      CHECK(provenance_at(series, Variable::rain, label) == Provenance::derived);
    }
    CHECK(series.hours() == 8);
  }

  TEST_CASE("a six-hour sum that runs past the next step counts only as far as that step") {
    const auto series = read_one(R"({"properties":{"meta":{"units":{"air_temperature":"celsius","precipitation_amount":"mm"}},"timeseries":[
      {"time":"2026-07-06T12:00:00Z","data":{"instant":{"details":{"air_temperature":20}},"next_6_hours":{"details":{"precipitation_amount":6}}}},
      {"time":"2026-07-06T14:00:00Z","data":{"instant":{"details":{"air_temperature":20}},"next_6_hours":{"details":{"precipitation_amount":12}}}}]}})")
                            .control;
    CHECK(*value_at(series, Variable::rain, "2026-07-06T14:00Z") == within(1.0, 1e-12));
    CHECK(*value_at(series, Variable::rain, "2026-07-06T15:00Z") == within(2.0, 1e-12));
  }

  TEST_CASE("a symbol with thunder in it is thunder for the hours after its step") {
    const auto series = read_one(samples::met_norway).control;
    CHECK(value_at(series, Variable::thunder_chance, "2026-07-06T12:00Z") == 0.0);
    CHECK(value_at(series, Variable::thunder_chance, "2026-07-06T13:00Z") == 100.0);
    CHECK(value_at(series, Variable::thunder_chance, "2026-07-06T18:00Z") == 100.0);
  }

  TEST_CASE("hours between six-hourly instants are missing as read, and bridged by the gap rules as the model's own step") {
    auto series = read_one(samples::met_norway).control;
    CHECK(!value_at(series, Variable::temperature, "2026-07-06T15:00Z"));
    weather::GapRules shorter_step;
    shorter_step.model = std::chrono::hours{4};
    CHECK(weather::bridge_gaps(series, shorter_step).size() == 2);
    CHECK(weather::bridge_gaps(series).empty());
    CHECK(*value_at(series, Variable::temperature, "2026-07-06T15:00Z") == within(25.0, 1e-12));
    CHECK(provenance_at(series, Variable::temperature, "2026-07-06T15:00Z") == Provenance::filled);
  }

  TEST_CASE("MET Norway's sea-level pressure is brought to the stated elevation") {
    const auto forecast = read_one(samples::met_norway);
    // FAO-56 eq. 7 at 300 m by hand: 101.3 ((293 - 1.95)/293)^5.26 = 97.81 kPa.
    CHECK(*value_at(forecast.control, Variable::pressure, "2026-07-06T11:00Z") == within(97.81, 0.01));
    auto options = noon();
    options.elevation = units::Metres{0.0};
    CHECK(*value_at(read_one(samples::met_norway, options).control, Variable::pressure, "2026-07-06T11:00Z") == within(101.3, 1e-9));
    CHECK(forecast.issued_at == utc("2026-07-06T10:30Z"));
    CHECK(forecast.credit == "Data from MET Norway");
    CHECK(forecast.elevation_known);
  }
}
