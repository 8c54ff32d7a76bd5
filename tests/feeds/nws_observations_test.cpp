#include "feeds/nws_observations.h"

#include <fmt/format.h>

#include "feeds/outside_replies.h"
#include "feeds/reading.h"
#include "support/within.h"

using weather::Provenance;
using weather::Variable;

namespace {

weather::Forecast record_of(std::string_view content, const feeds::ReadOptions& options = noon()) {
  auto record = feeds::read_nws_observations("observations", content, options);
  if (!record) FAIL(record.error().line());
  return *std::move(record);
}

std::string refused_record(std::string_view content) {
  const auto record = feeds::read_nws_observations("observations", content, noon());
  return record ? "was read" : record.error().line();
}

std::string one_report(std::string_view members) {
  return fmt::format(R"({{"properties":{{"timestamp":"2026-07-06T11:53:00+00:00","rawMessage":"KTBM coded",{}}}}})", members);
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("the regular report before a full hour speaks for that hour, never a special or a five-minute one") {
    const auto record = record_of(sample_bytes("nws-observations.json"));
    CHECK(value_at(record.control, Variable::temperature, "2026-07-06T12:00Z") == 21.0);
    CHECK(value_at(record.control, Variable::rain, "2026-07-06T12:00Z") == 2.5);
    CHECK(provenance_at(record.control, Variable::rain, "2026-07-06T12:00Z") == Provenance::observed);
    CHECK(record.control.first_label() == utc("2026-07-06T08:00Z"));
    CHECK(record.control.hours() == 5);
  }

  TEST_CASE("figures state their unit and are brought to ours, rain in metres and in millimetres alike") {
    const auto series = record_of(sample_bytes("nws-observations.json")).control;
    CHECK(*value_at(series, Variable::rain, "2026-07-06T10:00Z") == within(1.2, 1e-12));
    CHECK(value_at(series, Variable::rain, "2026-07-06T09:00Z") == 0.0);
    CHECK(*value_at(series, Variable::wind, "2026-07-06T10:00Z") == 2.5);
    CHECK(*value_at(series, Variable::wind, "2026-07-06T12:00Z") == within(1.0, 1e-12));
    CHECK(*value_at(series, Variable::gust, "2026-07-06T10:00Z") == 9.0);
  }

  TEST_CASE("null is missing and not zero, and so is what quality control failed or questioned") {
    const auto series = record_of(sample_bytes("nws-observations.json")).control;
    CHECK(!value_at(series, Variable::rain, "2026-07-06T11:00Z"));
    CHECK(!value_at(series, Variable::temperature, "2026-07-06T11:00Z"));
    CHECK(value_at(series, Variable::relative_humidity, "2026-07-06T11:00Z") == 61.5);
    CHECK(!value_at(series, Variable::temperature, "2026-07-06T09:00Z"));
    CHECK(!value_at(series, Variable::dew_point, "2026-07-06T09:00Z"));
    CHECK(value_at(series, Variable::relative_humidity, "2026-07-06T09:00Z") == 60.0);
  }

  TEST_CASE("a figure that cannot be weather is left out with a warning, and the rest of the record stands") {
    const auto record = record_of(sample_bytes("nws-observations.json"));
    CHECK(!value_at(record.control, Variable::rain, "2026-07-06T08:00Z"));
    CHECK(value_at(record.control, Variable::temperature, "2026-07-06T08:00Z") == 16.0);
    REQUIRE(record.warnings.size() == 1);
    CHECK(record.warnings[0] ==
          "National Weather Service station KTBM: 1 figures that cannot be weather are left out, the first: rain_mm 700000");
  }

  TEST_CASE("the altimeter setting is brought to the station's elevation") {
    const auto record = record_of(sample_bytes("nws-observations.json"));
    CHECK(record.place->latitude.value == 44.21);
    CHECK(record.place->elevation.value == 300.0);
    CHECK(record.elevation_known);
    // FAO-56 eq. 7 (Allen et al. 1998) by hand: 101.325 * ((293 - 0.0065 * 300) / 293)^5.26.
    CHECK(*value_at(record.control, Variable::pressure, "2026-07-06T12:00Z") == within(97.83, 0.01));
    const auto nowhere = record_of(one_report(
        R"("barometricPressure":{"unitCode":"wmoUnit:Pa","value":101325},"temperature":{"unitCode":"wmoUnit:degC","value":20})"));
    CHECK(nowhere.control[Variable::pressure].empty());
    CHECK(!nowhere.place);
  }

  TEST_CASE("a report at mid-hour speaks for no hour") {
    CHECK(
        refused_record(
            R"({"properties":{"timestamp":"2026-07-06T11:23:00+00:00","rawMessage":"KTBM coded","temperature":{"unitCode":"wmoUnit:degC","value":20}}})") ==
        "observations: expected a regular report with a figure in it");
    const auto on_the_hour = record_of(
        R"({"properties":{"timestamp":"2026-07-06T11:00:00+00:00","rawMessage":"KTBM coded","temperature":{"unitCode":"wmoUnit:degC","value":20}}})");
    CHECK(on_the_hour.control.first_label() == utc("2026-07-06T11:00Z"));
  }

  TEST_CASE("station reports that are none are refused with the member at fault") {
    CHECK(refused_record(R"({"features":[]})") == "observations: expected a regular report with a figure in it");
    CHECK(refused_record(R"({"features":7})") == "observations: features: '7': expected a list");
    CHECK(refused_record("{}") == "observations: properties: missing");
    CHECK(refused_record(R"({"properties":{"timestamp":"yesterday"}})") ==
          "observations: properties.timestamp: 'yesterday': expected a time such as 2026-07-15T12:53:00+00:00");
    CHECK(refused_record(one_report(R"("temperature":{"unitCode":"wmoUnit:K","value":293})")) ==
          "observations: properties.temperature.unitCode: 'wmoUnit:K': expected the unit °C, degC, celsius, °F, degF");
    CHECK(refused_record(one_report(R"("temperature":{"value":20})")) == "observations: properties.temperature.unitCode: missing");
    CHECK(refused_record(one_report(R"("temperature":{"unitCode":"wmoUnit:degC","value":"20"})")) ==
          "observations: properties.temperature.value: '20': expected a number");
    CHECK(refused_record(R"({"features":[{"properties":{"station":"x/KAAA","timestamp":"2026-07-06T11:53:00Z"}},
        {"properties":{"station":"x/KBBB","timestamp":"2026-07-06T10:53:00Z"}}]})") ==
          "observations: features[1].properties.station: 'x/KBBB': expected reports of one station, KAAA");
  }

  TEST_CASE("the recorded latest report of Fort Lauderdale is the hour that ends at midnight UTC") {
    const auto content = recorded("nws_obs_latest_KFLL_20220302.json");
    if (!content) return;
    feeds::ReadOptions options;
    options.now = utc("2022-03-03T00:10Z");
    const auto record = record_of(*content, options);
    CHECK(record.source == "National Weather Service station KFLL");
    CHECK(record.control.hours() == 1);
    CHECK(record.control.first_label() == utc("2022-03-03T00:00Z"));
    CHECK(value_at(record.control, Variable::temperature, "2022-03-03T00:00Z") == 22.8);
    CHECK(value_at(record.control, Variable::dew_point, "2022-03-03T00:00Z") == 18.3);
    CHECK(*value_at(record.control, Variable::wind, "2022-03-03T00:00Z") == within(2.1, 1e-9));
    CHECK(!value_at(record.control, Variable::rain, "2022-03-03T00:00Z"));
    CHECK(!value_at(record.control, Variable::gust, "2022-03-03T00:00Z"));
    CHECK(*value_at(record.control, Variable::pressure, "2022-03-03T00:00Z") == within(101.86, 0.05));
  }

  TEST_CASE("two recorded reports of one minute, one of them all null, are one hour with the figures of the other") {
    const auto content = recorded("nws_obs_KFLL_20190627_nulls_edited.json");
    if (!content) return;
    feeds::ReadOptions options;
    options.now = utc("2019-06-27T12:00Z");
    const auto record = record_of(*content, options);
    CHECK(record.control.hours() == 1);
    CHECK(value_at(record.control, Variable::temperature, "2019-06-27T11:00Z") == 10.0);
    CHECK(value_at(record.control, Variable::wind, "2019-06-27T11:00Z") == 10.0);
    CHECK(!value_at(record.control, Variable::rain, "2019-06-27T11:00Z"));
  }
}
