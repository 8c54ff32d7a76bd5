// From every service to the days of the place: 23 hours in spring, 25 in autumn, and full UTC hours in zones off the hour.
// The changes of clock are those of IANA tzdata: Chicago 2026-03-08T08:00Z and 2026-11-01T07:00Z; Adelaide (+9:30, +10:30 in summer)
// 2026-04-04T16:30Z and 2026-10-03T16:30Z; Kathmandu +5:45 all year.
#include <doctest/doctest.h>
#include <fmt/chrono.h>
#include <fmt/format.h>

#include <map>

#include "feeds/nws_observations.h"
#include "feeds/reading.h"
#include "feeds/time_zone.h"

using units::UtcTime;
using weather::Variable;
using namespace std::chrono_literals;

namespace {

constexpr int hours_told = 96;

// One value an hour, its own number, as each service would send it from `first` on.
std::string open_meteo(UtcTime first) {
  std::string times, values;
  for (int h = 0; h < hours_told; ++h) {
    times += fmt::format("{}{}", h ? "," : "", (first + std::chrono::hours{h}).time_since_epoch().count());
    values += fmt::format("{}{}", h ? "," : "", 0.1 * h);
  }
  return fmt::format(
      R"({{"utc_offset_seconds":0,"timezone":"GMT","hourly_units":{{"temperature_2m":"°C"}},"hourly":{{"time":[{}],"temperature_2m":[{}]}}}})",
      times, values);
}

std::string iso(UtcTime time) { return fmt::format("{:%Y-%m-%dT%H:%M:%S}", fmt::gmtime(time.time_since_epoch().count())); }

std::string nws_grid(UtcTime first) {
  std::string values;
  for (int h = 0; h < hours_told; ++h)
    values += fmt::format(R"({}{{"validTime":"{}+00:00/PT1H","value":{}}})", h ? "," : "", iso(first + std::chrono::hours{h}), 0.1 * h);
  return fmt::format(R"({{"properties":{{"validTimes":"x","temperature":{{"uom":"wmoUnit:degC","values":[{}]}}}}}})", values);
}

std::string met_norway(UtcTime first) {
  std::string steps;
  for (int h = 0; h < hours_told; ++h)
    steps += fmt::format(R"({}{{"time":"{}Z","data":{{"instant":{{"details":{{"air_temperature":{}}}}}}}}})", h ? "," : "",
                         iso(first + std::chrono::hours{h}), 0.1 * h);
  return fmt::format(R"({{"properties":{{"meta":{{"units":{{"air_temperature":"celsius"}}}},"timeseries":[{}]}}}})", steps);
}

std::string station_csv(UtcTime first) {
  std::string rows = "time_utc,temp_c,rh_pct\n";
  for (int h = 0; h < hours_told; ++h) rows += fmt::format("{}Z,{},50\n", iso(first + std::chrono::hours{h}).substr(0, 16), 0.1 * h);
  return rows;
}

std::string nws_observations(UtcTime first) {
  std::string reports;
  for (int h = 0; h < hours_told; ++h)
    reports += fmt::format(
        R"({}{{"properties":{{"timestamp":"{}+00:00","rawMessage":"x","temperature":{{"unitCode":"wmoUnit:degC","value":{}}}}}}})",
        h ? "," : "", iso(first + std::chrono::hours{h} - 7min), 0.1 * h);
  return fmt::format(R"({{"features":[{}]}})", reports);
}

weather::Series observed(UtcTime first) {
  auto record = feeds::read_nws_observations("sample", nws_observations(first), noon());
  if (!record) FAIL(record.error().line());
  return record->control;
}

// Every service's series, by its name.
std::map<std::string, weather::Series> services(UtcTime first) {
  return {{"Open-Meteo", read_one(open_meteo(first)).control},
          {"NWS raw grid", read_one(nws_grid(first)).control},
          {"MET Norway", read_one(met_norway(first)).control},
          {"station CSV", read_one(station_csv(first)).control},
          {"NWS observations", observed(first)}};
}

// Hours that begin on a local day, and the value at the label that ends the first of them.
struct LocalHours {
  int count = 0;
  double first_value = -1.0;
};
LocalHours on_day(const weather::Series& series, const units::ZoneOffsets& zone, std::string_view day) {
  LocalHours found;
  for (std::size_t i = 0; i < series.hours(); ++i) {
    const UtcTime begins = series.label(i) - 1h;
    if (zone.day_of(begins) != *units::parse_day(day)) continue;
    if (found.count++ == 0) found.first_value = series.at(Variable::temperature, i).value_or(-1.0);
  }
  return found;
}

void check_day(std::string_view first, const char* zone_name, std::string_view day, int count, double first_value) {
  const UtcTime start = utc(first);
  const auto zone = feeds::load_zone(zone_name, start, start + std::chrono::hours{hours_told});
  REQUIRE(zone);
  for (const auto& [name, series] : services(start)) {
    CAPTURE(name);
    REQUIRE(series.hours() == hours_told);
    CHECK(series.first_label() == start);
    const LocalHours found = on_day(series, *zone, day);
    CHECK(found.count == count);
    CHECK(found.first_value == doctest::Approx(first_value));
  }
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("the local day on which clocks go forward has 23 hours from every service") {
    // Chicago's 8 March begins at 06:00 UTC: its first hour is the one that the label 07:00 ends, the 31st of a series from 00:00 the day
    // before.
    check_day("2026-03-07T00:00Z", "America/Chicago", "2026-03-08", 23, 3.1);
    check_day("2026-03-07T00:00Z", "America/Chicago", "2026-03-09", 24, 5.4);
  }

  TEST_CASE("the local day on which clocks go back has 25 hours from every service") {
    // Begins at 05:00 UTC.
    check_day("2026-10-31T00:00Z", "America/Chicago", "2026-11-01", 25, 3.0);
    check_day("2026-10-31T00:00Z", "America/Chicago", "2026-11-02", 24, 5.5);
  }

  TEST_CASE("in a zone off the full hour a UTC hour belongs to the local day in which it begins, from every service") {
    // Adelaide's 6 July begins at 14:30 UTC of the 5th: the first whole hour in it is labelled 16:00.
    check_day("2026-07-04T00:00Z", "Australia/Adelaide", "2026-07-06", 24, 4.0);
    // Kathmandu's begins at 18:15 UTC: labelled 20:00.
    check_day("2026-07-04T00:00Z", "Asia/Kathmandu", "2026-07-06", 24, 4.4);
  }

  TEST_CASE("clocks of a half-hour zone change for every service") {
    // Adelaide's 5 April begins at 13:30 UTC of the 4th (+10:30) and ends at 14:30 of the 5th (+9:30); its 4 October begins at 14:30 of the
    // 3rd and ends at 13:30 of the 4th.
    check_day("2026-04-03T00:00Z", "Australia/Adelaide", "2026-04-05", 25, 3.9);
    check_day("2026-10-02T00:00Z", "Australia/Adelaide", "2026-10-04", 23, 4.0);
  }

  TEST_CASE("a second place of one Open-Meteo reply carries a location_id, and members and nulls stay its own") {
    const auto forecasts =
        feeds::read_weather("two",
                            R"([{"latitude":44.25,"longitude":-93.5,"hourly_units":{"temperature_2m":"°C","precipitation_probability":"%"},
             "hourly":{"time":[1783335600,1783339200],"temperature_2m":[20,21],"precipitation_probability":[null,40]}},
            {"latitude":41.75,"longitude":-87.75,"location_id":1,"hourly_units":{"temperature_2m":"°C","temperature_2m_member01":"°C"},
             "hourly":{"time":[1783335600,1783339200],"temperature_2m":[null,-0],"temperature_2m_member01":[-3,0]}}])",
                            noon());
    REQUIRE(forecasts);
    REQUIRE(forecasts->size() == 2);
    const auto& first = (*forecasts)[0];
    const auto& second = (*forecasts)[1];
    CHECK(first.members.empty());
    // The chance of rain is not kept for the past (open-meteo issue 1319): missing, not 0.
    CHECK(!value_at(first.control, Variable::rain_chance, "2026-07-06T11:00Z"));
    CHECK(value_at(first.control, Variable::rain_chance, "2026-07-06T12:00Z") == 40.0);
    CHECK(second.place->longitude.value == -87.75);
    CHECK(!value_at(second.control, Variable::temperature, "2026-07-06T11:00Z"));
    CHECK(value_at(second.control, Variable::temperature, "2026-07-06T12:00Z") == 0.0);
    REQUIRE(second.members.size() == 1);
    CHECK(value_at(second.members[0], Variable::temperature, "2026-07-06T11:00Z") == -3.0);
  }

  TEST_CASE("an archive reply with the soil layers of its own model is analysed throughout") {
    const auto forecast = read_one(
        R"({"latitude":44.25,"longitude":-93.5,"hourly_units":{"temperature_2m":"°C","soil_moisture_0_to_7cm":"m³/m³","soil_moisture_100_to_255cm":"m³/m³"},
           "hourly":{"time":[1783249200,1783252800],"temperature_2m":[20,21],"soil_moisture_0_to_7cm":[0.2,0.21],"soil_moisture_100_to_255cm":[0.3,null]}})");
    REQUIRE(forecast.control.soil.size() == 2);
    CHECK(forecast.control.soil[1].bottom == units::Metres{2.55});
    CHECK(!forecast.control.soil[1].moisture_m3_m3.has(1));
    CHECK(forecast.control[Variable::temperature].provenance(1) == weather::Provenance::analysed);
  }
}
