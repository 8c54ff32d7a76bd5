#include <doctest/doctest.h>
#include <fmt/format.h>

#include "feeds/reading.h"
#include "feeds/samples.h"
#include "support/within.h"

using weather::Provenance;
using weather::Variable;

namespace {

// Two hours of temperature whose time axis, offset and zone are given.
std::string two_hours(std::string_view times, int offset_s, std::string_view zone) {
  return fmt::format(
      R"({{"utc_offset_seconds":{},"timezone":"{}","hourly_units":{{"temperature_2m":"°C"}},"hourly":{{"time":[{}],"temperature_2m":[20,21]}}}})",
      offset_s, zone, times);
}

// Two hours of soil moisture in the thin layers' names.
std::string thin_layers(std::string_view third) {
  return fmt::format(
      R"({{"hourly_units":{{"temperature_2m":"°C","soil_moisture_0_to_1cm":"m³/m³","soil_moisture_1_to_3cm":"m³/m³","soil_moisture_3_to_9cm":"m³/m³","soil_moisture_9_to_27cm":"m³/m³","soil_moisture_27_to_81cm":"m³/m³"}},
      "hourly":{{"time":["2026-07-06T11:00","2026-07-06T12:00"],"temperature_2m":[20,21],"soil_moisture_0_to_1cm":[0.251,0.25],"soil_moisture_1_to_3cm":[0.251,0.25],
      "soil_moisture_3_to_9cm":[0.251,{}],"soil_moisture_9_to_27cm":[0.3,0.3],"soil_moisture_27_to_81cm":[0.31,0.31]}}}})",
      third);
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("an Open-Meteo reply becomes hours in our units, and null stays missing") {
    const auto forecast = read_one(samples::open_meteo);
    const auto& series = forecast.control;
    CHECK(series.hours() == 3);
    CHECK(*value_at(series, Variable::temperature, "2026-07-06T11:00Z") == within(20.0, 1e-12));
    CHECK(!value_at(series, Variable::temperature, "2026-07-06T12:00Z"));
    CHECK(*value_at(series, Variable::rain, "2026-07-06T12:00Z") == within(2.54, 1e-12));
    CHECK(!value_at(series, Variable::rain, "2026-07-06T13:00Z"));
    CHECK(*value_at(series, Variable::wind, "2026-07-06T13:00Z") == within(3.0, 1e-12));
    CHECK(*value_at(series, Variable::gust, "2026-07-06T11:00Z") == within(4.4704, 1e-12));
    CHECK(*value_at(series, Variable::pressure, "2026-07-06T12:00Z") == within(98.15, 1e-12));
    CHECK(*value_at(series, Variable::shortwave, "2026-07-06T11:00Z") == 500.5);
    CHECK(*value_at(series, Variable::dew_point, "2026-07-06T13:00Z") == 0.0);
    CHECK(*value_at(series, Variable::thunder_chance, "2026-07-06T11:00Z") == 0.0);
    CHECK(*value_at(series, Variable::thunder_chance, "2026-07-06T12:00Z") == 100.0);
    CHECK(!value_at(series, Variable::thunder_chance, "2026-07-06T13:00Z"));
    CHECK(provenance_at(series, Variable::cloud, "2026-07-06T12:00Z") == Provenance::analysed);
    CHECK(provenance_at(series, Variable::cloud, "2026-07-06T13:00Z") == Provenance::forecast);
    REQUIRE(series.soil.size() == 2);
    CHECK(series.soil[0].moisture_m3_m3.at(1) == 0.24);
    CHECK(series.soil[0].temperature_c.at(2) == 22.0);
    CHECK(series.soil[1].bottom == units::Metres{0.4});
    CHECK(forecast.credit == "Weather data by Open-Meteo.com");
    CHECK(forecast.place->latitude.value == 44.2);
    CHECK(forecast.elevation_known);
    CHECK(!forecast.issued_at);
    CHECK(forecast.warnings.empty());
  }

  TEST_CASE("unix labels are UTC whatever the zone of the reply") {
    const auto forecast = read_one(two_hours("1783335600,1783339200", -18000, "America/Chicago"));
    CHECK(forecast.control.first_label() == utc("2026-07-06T11:00Z"));
    CHECK(forecast.warnings.empty());
  }

  TEST_CASE("wall-clock labels are brought to UTC by the one offset of the reply") {
    const auto summer = read_one(two_hours(R"("2026-07-06T06:00","2026-07-06T07:00")", -18000, "America/Chicago"));
    CHECK(summer.control.first_label() == utc("2026-07-06T11:00Z"));
    CHECK(summer.warnings.empty());
  }

  TEST_CASE("an offset that is not the zone's clock at some hour is kept and told") {
    const auto spring = read_one(two_hours(R"("2026-03-08T01:00","2026-03-08T02:00")", -21600, "America/Chicago"));
    CHECK(spring.control.first_label() == utc("2026-03-08T07:00Z"));
    CHECK(spring.control.hours() == 2);
    REQUIRE(spring.warnings.size() == 1);
    CHECK(spring.warnings[0] ==
          "Open-Meteo: all labels carry one offset, -21600 s, which is not the clock of America/Chicago at 2026-03-08T08:00Z: read with "
          "that offset");
  }

  TEST_CASE("labels of a zone off the full hour stand for the full UTC hour after them, before and after Greenwich") {
    CHECK(read_one(two_hours(R"("2026-07-06T00:00","2026-07-06T01:00")", 34200, "Australia/Adelaide")).control.first_label() ==
          utc("2026-07-05T15:00Z"));
    CHECK(read_one(two_hours(R"("2026-07-06T00:00","2026-07-06T01:00")", 20700, "Asia/Kathmandu")).control.first_label() ==
          utc("2026-07-05T19:00Z"));
    CHECK(read_one(two_hours(R"("2026-07-06T00:00","2026-07-06T01:00")", -9000, "America/St_Johns")).control.first_label() ==
          utc("2026-07-06T02:00Z"));
    CHECK(read_one(two_hours("1783261800,1783265400", 34200, "Australia/Adelaide")).control.first_label() == utc("2026-07-05T15:00Z"));
    CHECK(read_one(two_hours("1783263600,1783267200", 34200, "Australia/Adelaide")).control.first_label() == utc("2026-07-05T15:00Z"));
  }

  TEST_CASE("several places of one reply keep their order") {
    const std::string two = fmt::format("[{},{}]", samples::open_meteo, two_hours("1783335600,1783339200", 0, "GMT"));
    const auto forecasts = feeds::read_weather("two", two, noon());
    REQUIRE(forecasts);
    REQUIRE(forecasts->size() == 2);
    CHECK((*forecasts)[0].control.hours() == 3);
    CHECK((*forecasts)[1].control.hours() == 2);
    CHECK(!(*forecasts)[1].place);
  }

  TEST_CASE("members of an ensemble are kept apart, in the order of their numbers") {
    const auto forecast = read_one(
        R"({"hourly_units":{"temperature_2m":"°C","temperature_2m_member01":"°C","temperature_2m_member10":"°C","precipitation_member10":"mm"},
        "hourly":{"time":["2026-07-06T11:00"],"temperature_2m":[20],"temperature_2m_member10":[21],"temperature_2m_member01":[19],"precipitation_member10":[2]}})");
    REQUIRE(forecast.members.size() == 2);
    CHECK(forecast.control.at(Variable::temperature, 0) == 20.0);
    CHECK(forecast.members[0].at(Variable::temperature, 0) == 19.0);
    CHECK(forecast.members[1].at(Variable::temperature, 0) == 21.0);
    CHECK(!forecast.control.at(Variable::rain, 0));
    CHECK(forecast.members[1].at(Variable::rain, 0) == 2.0);
  }

  TEST_CASE("names of older requests are understood") {
    const auto forecast = read_one(
        R"({"hourly_units":{"temperature_2m":"°C","relativehumidity_2m":"%","windspeed_10m":"kn","weathercode":"wmo code","soil_moisture_0_7cm":"m³/m³"},
        "hourly":{"time":["2026-07-06T11:00"],"temperature_2m":[20],"relativehumidity_2m":[50],"windspeed_10m":[10],"weathercode":[99],"soil_moisture_0_7cm":[0.3]}})");
    CHECK(forecast.control.at(Variable::relative_humidity, 0) == 50.0);
    CHECK(*forecast.control.at(Variable::wind, 0) == within(5.14444, 1e-5));
    CHECK(forecast.control.at(Variable::thunder_chance, 0) == 100.0);
    REQUIRE(forecast.control.soil.size() == 1);
    CHECK(forecast.control.soil[0].bottom == units::Metres{0.07});
  }

  TEST_CASE("three equal top layers are one layer of a coarser model, three different ones are not") {
    const auto aliased = read_one(thin_layers("0.25"));
    REQUIRE(aliased.control.soil.size() == 3);
    CHECK(aliased.control.soil[0].top == units::Metres{0.0});
    CHECK(aliased.control.soil[0].bottom == units::Metres{0.1});
    CHECK(aliased.control.soil[1].bottom == units::Metres{0.4});
    CHECK(aliased.control.soil[2].bottom == units::Metres{1.0});
    CHECK(aliased.control.soil[0].moisture_m3_m3.at(0) == 0.251);
    CHECK(aliased.warnings.size() == 1);
    const auto true_layers = read_one(thin_layers("0.249"));
    CHECK(true_layers.control.soil.size() == 5);
    CHECK(true_layers.warnings.empty());
  }

  TEST_CASE("sea-level pressure is brought to the site where its elevation is known, and left unread where it is not") {
    constexpr std::string_view reply =
        R"({"latitude":44,"longitude":-93,"hourly_units":{"temperature_2m":"°C","pressure_msl":"hPa"},"hourly":{"time":["2026-07-06T11:00"],"temperature_2m":[20],"pressure_msl":[1013]}})";
    CHECK(!read_one(reply).control.at(Variable::pressure, 0));
    auto options = noon();
    options.elevation = units::Metres{1800.0};
    // FAO-56 example 2: 81.8 kPa at 1800 m (Allen et al. 1998).
    CHECK(*read_one(reply, options).control.at(Variable::pressure, 0) == within(81.8, 0.05));
  }
}
