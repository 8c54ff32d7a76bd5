#include <doctest/doctest.h>

#include "feeds/reading.h"
#include "feeds/samples.h"

using weather::Provenance;
using weather::Variable;

TEST_SUITE("feeds") {
  TEST_CASE("station columns come in any order, and an empty field is missing and not zero") {
    const auto forecast = read_one(samples::station_csv);
    const auto& series = forecast.control;
    CHECK(series.first_label() == utc("2026-07-06T11:00Z"));
    CHECK(series.hours() == 4);
    CHECK(value_at(series, Variable::rain, "2026-07-06T11:00Z") == 0.2);
    CHECK(!value_at(series, Variable::rain, "2026-07-06T12:00Z"));
    CHECK(value_at(series, Variable::rain, "2026-07-06T14:00Z") == 0.0);
    CHECK(!series.any(2));
    CHECK(value_at(series, Variable::shortwave, "2026-07-06T12:00Z") == 610.5);
    CHECK(provenance_at(series, Variable::temperature, "2026-07-06T12:00Z") == Provenance::observed);
    CHECK(provenance_at(series, Variable::temperature, "2026-07-06T14:00Z") == Provenance::forecast);
    REQUIRE(series.soil.size() == 1);
    CHECK(series.soil[0].moisture_m3_m3.at(0) == 0.21);
    CHECK(forecast.source == "station CSV sample");
    CHECK(!forecast.place);
  }

  TEST_CASE("labels that start their hour are moved to its end") {
    auto options = noon();
    options.labels_start_hour = true;
    options.place = units::Site{units::Degrees{44.2}, units::Degrees{-93.4}, units::Metres{300.0}};
    const auto forecast = read_one(samples::station_csv, options);
    CHECK(forecast.control.first_label() == utc("2026-07-06T12:00Z"));
    CHECK(value_at(forecast.control, Variable::temperature, "2026-07-06T12:00Z") == 20.5);
    CHECK(value_at(forecast.control, Variable::shortwave, "2026-07-06T13:00Z") == 610.5);
    CHECK(forecast.place->longitude.value == -93.4);
    CHECK(!forecast.elevation_known);
    options.elevation = units::Metres{310.0};
    CHECK(read_one(samples::station_csv, options).place->elevation.value == 310.0);
  }

  TEST_CASE("a column that is not known is told and left") {
    const auto forecast = read_one("time_utc,temp_c,rh_pct,rain_inches\n2026-07-06T11:00Z,20,50,9\n");
    REQUIRE(forecast.warnings.size() == 1);
    CHECK(forecast.warnings[0] == "sample:1: column 'rain_inches' is not known and not read");
  }

  TEST_CASE("a byte order mark and carriage returns do no harm") {
    const auto forecast = read_one("\xEF\xBB\xBFtime_utc,temp_c,rh_pct\r\n2026-07-06T11:00Z,20,50\r\n");
    CHECK(forecast.control.at(Variable::relative_humidity, 0) == 50.0);
  }

  TEST_CASE("a dew point above the temperature is told") {
    const auto forecast = read_one("time_utc,temp_c,dew_point_c\n2026-07-06T11:00Z,20,20.4\n2026-07-06T12:00Z,20,25\n");
    REQUIRE(forecast.warnings.size() == 1);
    CHECK(forecast.warnings[0] == "station CSV sample: dew point above temperature in 1 hours, the first at 2026-07-06T12:00Z");
  }
}
