#include "feeds/daily_rain.h"

#include "feeds/outside_replies.h"
#include "feeds/reading.h"

namespace {

std::string refused_days(std::string_view content) {
  const auto days = feeds::read_daily_rain("rain", content);
  return days ? "was read" : days.error().line();
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("daily rain is told in the order of its days, from numbers that are texts") {
    const auto days = feeds::read_daily_rain("rain", sample_bytes("daily-rain.json"));
    REQUIRE(days);
    REQUIRE(days->size() == 3);
    CHECK((*days)[0].day == *units::parse_day("2026-07-01"));
    CHECK((*days)[0].rain_mm == 0.0);
    CHECK((*days)[0].tmin_c == -0.6);
    CHECK((*days)[1].rain_mm == 12.4);
    CHECK((*days)[1].tmax_c == 24.4);
  }

  TEST_CASE("a figure that a station did not report is missing and not zero") {
    const auto days = feeds::read_daily_rain("rain", sample_bytes("daily-rain.json"));
    REQUIRE(days);
    CHECK(!days->back().rain_mm);
    CHECK(!days->back().tmax_c);
    CHECK(!days->back().tmin_c);
    const auto none = feeds::read_daily_rain("rain", "[]");
    REQUIRE(none);
    CHECK(none->empty());
  }

  TEST_CASE("daily rain that is none is refused with the row at fault") {
    CHECK(refused_days("{}") == "rain: expected a list of days");
    CHECK(refused_days(R"([{"DATE":"2026-07-01"}])") == "rain: [0].STATION: missing");
    CHECK(refused_days(R"([{"STATION":"A"}])") == "rain: [0].DATE: missing");
    CHECK(refused_days(R"([{"STATION":"A","DATE":"July 1"}])") == "rain: [0].DATE: 'July 1': expected a day such as 2026-07-06");
    CHECK(refused_days(R"([{"STATION":"A","DATE":"2026-07-01"},{"STATION":"B","DATE":"2026-07-02"}])") ==
          "rain: [1].STATION: 'B': expected one station, A");
    CHECK(refused_days(R"([{"STATION":"A","DATE":"2026-07-01"},{"STATION":"A","DATE":"2026-07-01"}])") ==
          "rain: '2026-07-01': expected each day once");
    CHECK(refused_days(R"([{"STATION":"A","DATE":"2026-07-01","PRCP":"-9999"}])") ==
          "rain: [0].PRCP: '-9999': expected a number from 0 to 2000");
    // A summer's day in tenths of a degree: units=metric was left out of the address.
    CHECK(refused_days(R"([{"STATION":"A","DATE":"2026-07-01","TMAX":"283"}])") ==
          "rain: [0].TMAX: '283': expected a number from -90 to 60");
    CHECK(refused_days(R"([{"STATION":"A","DATE":"2026-07-01","PRCP":"1,5"}])") ==
          "rain: [0].PRCP: '1,5': expected a number from 0 to 2000");
    CHECK(refused_days(R"({"errorCode":400,"errorMessage":"Bad Request"})") ==
          "rain: 'Bad Request': expected daily rain, not a service's error");
  }
}
