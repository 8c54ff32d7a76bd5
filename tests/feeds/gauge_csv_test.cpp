#include "feeds/gauge_csv.h"

#include <doctest/doctest.h>

#include "feeds/outside_replies.h"
#include "support/within.h"

namespace {

std::string line_of(const std::string& content) {
  const auto read = feeds::read_gauge("rain.csv", content);
  return read ? "" : read.error().line();
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("a gauge's days are read in inches or millimetres, with its place or without") {
    const auto days = feeds::read_gauge("gauge.csv", sample_bytes("gauge.csv"));
    REQUIRE(days.has_value());
    REQUIRE(days->size() == 2);
    CHECK((*days)[0].rain_mm == within(10.16, 1e-9));
    CHECK((*days)[0].site->latitude.value == 44.2);
    CHECK((*days)[1].rain_mm == 0.0);
    CHECK((*feeds::read_gauge("x", "rain_mm,date\n3.5,2026-07-03\n"))[0].rain_mm == 3.5);
    CHECK_FALSE((*feeds::read_gauge("x", "rain_mm,date\n3.5,2026-07-03\n"))[0].site.has_value());
  }

  TEST_CASE("one bad line refuses the whole gauge, for a day left out would be a dry one") {
    CHECK(line_of("date,rain_mm\n2026-02-30,1\n") == "rain.csv:2: date: '2026-02-30': expected a day as YYYY-MM-DD");
    CHECK(line_of("date,rain_mm\n2026-07-03,-1\n") == "rain.csv:2: rain_mm: '-1': expected a number from 0 to 1000");
    CHECK(line_of("date,rain_in\n2026-07-03,40\n") == "rain.csv:2: rain_in: '40': expected a number from 0 to 39.37");
    CHECK(line_of("date,rain_mm\n2026-07-03,1\n2026-07-03,2\n") == "rain.csv:3: date: '2026-07-03': expected each day of a gauge once");
    CHECK(line_of("date\n2026-07-03\n") == "rain.csv:1: expected one of rain_mm or rain_in");
    CHECK(line_of("date,rain_mm,rain_in\n") == "rain.csv:1: expected one of rain_mm or rain_in");
    CHECK(line_of("date,rain_mm,lat\n") == "rain.csv:1: expected lat and lon together");
    CHECK(line_of("date,rain_mm,lat,lon\n2026-07-03,1,91,0\n") == "rain.csv:2: lat: '91': expected a number from -90 to 90");
    CHECK(line_of("date,rain_mm,lat,lon\n2026-07-03,1,44,-93\n2026-07-03,1,45,-93\n") == "");
  }
}
