// Real replies, recorded by others and kept outside the project; what to expect of each is written beside them (SOURCES.md there).
#include <doctest/doctest.h>

#include <cstdlib>
#include <nlohmann/json.hpp>

#include "feeds/reading.h"
#include "support/within.h"
#include "weather/gaps.h"

using weather::Variable;

namespace {

// Bytes of a recording; empty where the outside data are not here.
std::optional<std::string> recording(const std::string& name) {
  const char* folder = std::getenv("SAPDRAW_OUTSIDE_DATA");
  if (!folder) {
    MESSAGE("skipped: SAPDRAW_OUTSIDE_DATA is not set");
    return std::nullopt;
  }
  return bytes_of(std::string{folder} + "/weather-recordings/" + name);
}

std::size_t count(const weather::Series& series, Variable variable) {
  std::size_t hours = 0;
  for (std::size_t hour = 0; hour < series.hours(); ++hour) hours += series[variable].has(hour) ? 1 : 0;
  return hours;
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("the Tallahassee grid: rain ends a day before temperature, and is missing from there on") {
    const auto content = recording("nws_gridpoint_TAE_58_65_20220204.json");
    if (!content) return;
    const auto forecast = read_one(*content);
    const auto& series = forecast.control;
    CHECK(forecast.source == "National Weather Service TAE 58,65");
    CHECK(forecast.issued_at == utc("2022-02-04T03:15:41Z"));
    CHECK(series.first_label() == utc("2022-02-03T21:00Z"));
    CHECK(value_at(series, Variable::temperature, "2022-02-03T21:00Z") == 22.77777777777778);
    CHECK(value_at(series, Variable::temperature, "2022-02-11T10:00Z") == 4.444444444444445);
    CHECK(!value_at(series, Variable::temperature, "2022-02-11T11:00Z"));
    CHECK(count(series, Variable::temperature) == 182);
    CHECK(value_at(series, Variable::rain, "2022-02-10T12:00Z") == 0.0);
    CHECK(!value_at(series, Variable::rain, "2022-02-10T13:00Z"));
    for (std::size_t hour = 0; hour < series.hours(); ++hour) CHECK(series.any(hour));
    // dewpoint: PT5H from 21:00 holds until 01:00, PT10H from 02:00 until 11:00.
    CHECK(value_at(series, Variable::dew_point, "2022-02-04T01:00Z") == 17.77777777777778);
    CHECK(value_at(series, Variable::dew_point, "2022-02-04T02:00Z") == 18.333333333333332);
  }

  TEST_CASE("the rain of a grid's layer is kept to the last bit of its total") {
    const auto content = recording("nws_gridpoint_TAE_58_65_20220204.json");
    if (!content) return;
    double total_mm = 0.0, spread_mm = 0.0;
    const auto grid = nlohmann::json::parse(*content);
    for (const auto& interval : grid["properties"]["quantitativePrecipitation"]["values"]) total_mm += interval["value"].get<double>();
    const auto series = read_one(*content).control;
    for (std::size_t hour = 0; hour < series.hours(); ++hour) spread_mm += series.at(Variable::rain, hour).value_or(0.0);
    CHECK(total_mm > 0.0);
    CHECK(spread_mm == within(total_mm, 1e-9));
  }

  TEST_CASE("the Boston grid: rain is hourly, so no hour of it is derived") {
    const auto content = recording("nws_gridpoint_BOX_70_82_20260715_redated.json");
    if (!content) return;
    const auto forecast = read_one(*content);
    const auto& series = forecast.control;
    CHECK(forecast.issued_at == utc("2026-07-15T18:29:19Z"));
    CHECK(series.first_label() == utc("2026-07-15T12:00Z"));
    CHECK(count(series, Variable::rain) == 181);
    for (std::size_t hour = 0; hour < series.hours(); ++hour)
      CHECK(series[Variable::rain].provenance(hour) != weather::Provenance::derived);
    CHECK(!series[Variable::thunder_chance].empty());
  }

  TEST_CASE("the Toronto week: 192 hours one after the other across the change of clocks") {
    const auto content = recording("open_meteo_Toronto_DSTweek_20260304.json");
    if (!content) return;
    const auto forecast = read_one(*content);
    CHECK(forecast.control.hours() == 192);
    CHECK(forecast.control.first_label() == utc("2026-03-04T05:00Z"));
    CHECK(count(forecast.control, Variable::temperature) == 192);
    CHECK(*value_at(forecast.control, Variable::temperature, "2026-03-04T05:00Z") == within(0.0, 1e-12));
    CHECK(*value_at(forecast.control, Variable::temperature, "2026-03-12T04:00Z") == within((26.5 - 32.0) / 1.8, 1e-12));
    REQUIRE(forecast.warnings.size() == 1);
    CHECK(forecast.warnings[0].find("America/Toronto at 2026-03-08T07:00Z") != std::string::npos);
  }

  TEST_CASE("the Adelaide archive: half-hour labels with winter's offset are full hours of UTC") {
    const auto content = recording("open_meteo_archive_Adelaide_20250110.json");
    if (!content) return;
    const auto forecast = read_one(*content);
    CHECK(forecast.control.hours() == 72);
    CHECK(forecast.control.first_label() == utc("2025-01-09T15:00Z"));
    CHECK(value_at(forecast.control, Variable::temperature, "2025-01-09T15:00Z") == 20.3);
    CHECK(forecast.warnings.size() == 2);
  }

  TEST_CASE("the ensemble: a control and 30 members") {
    const auto content = recording("open_meteo_ensemble_members_20260711.json");
    if (!content) return;
    const auto forecast = read_one(*content);
    CHECK(forecast.members.size() == 30);
    CHECK(forecast.control.at(Variable::temperature, 0) == 18.9);
    CHECK(forecast.members[0].at(Variable::temperature, 0) == 19.0);
    CHECK(forecast.control.first_label() == utc("2026-07-10T22:00Z"));
  }

  TEST_CASE("the New York forecast: 55 hourly and 26 six-hourly steps, bridged into one hourly series") {
    const auto content = recording("metno_compact_NYC_20200720.json");
    if (!content) return;
    feeds::ReadOptions options;
    options.now = utc("2020-07-20T11:44Z");
    auto series = read_one(nlohmann::json::parse(*content)["data"].dump(), options).control;
    CHECK(count(series, Variable::temperature) == 82);
    CHECK(count(series, Variable::pressure) == 82);
    CHECK(series.first_label() == utc("2020-07-20T11:00Z"));
    CHECK(value_at(series, Variable::temperature, "2020-07-22T18:00Z") == 30.2);
    CHECK(!value_at(series, Variable::rain, "2020-07-29T07:00Z"));
    CHECK(weather::bridge_gaps(series).empty());
    // Hour by hour from 07-20T11 to 07-29T06.
    CHECK(count(series, Variable::temperature) == 212);
    CHECK(count(series, Variable::rain) == 211);
  }

  TEST_CASE("errors of the services are told in their own words") {
    for (const auto& [name, words] : {std::pair{"open_meteo_error400_bad_unit_20231025.json", "Cannot initialize TemperatureUnit"},
                                      std::pair{"open_meteo_error400_bad_variable_20231025.json", "invalid String value lksdfj"},
                                      std::pair{"nws_problem_500.json", "An unexpected problem has occurred."}}) {
      const auto content = recording(name);
      if (!content) return;
      CHECK(refusal(*content).find(words) != std::string::npos);
    }
  }

  TEST_CASE("replies of the services that are not forecasts are refused, not misread") {
    for (const char* name : {"nws_alerts_zone_20191220.json", "nws_points_30_-85.json", "nws_obs_latest_KFLL_20220302.json",
                             "open_meteo_geocoding_hollywood_20250406.json", "open_meteo_geocoding_no_hit.json"}) {
      const auto content = recording(name);
      if (!content) return;
      CHECK(refusal(*content).find("none of them") != std::string::npos);
    }
  }
}
