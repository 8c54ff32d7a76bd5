#include "feeds/rain_stations.h"

#include <doctest/doctest.h>

#include "feeds/outside_replies.h"

namespace {
const units::Site place{units::Degrees{44.4}, units::Degrees{-93.8}, units::Metres{300.0}};
}

TEST_SUITE("feeds") {
  TEST_CASE("rain stations come nearest first, without the archive's prefix") {
    const auto stations = feeds::read_rain_stations("stations", sample_bytes("rain-stations.json"), place);
    REQUIRE(stations.has_value());
    REQUIRE(stations->size() == 2);
    CHECK((*stations)[0].id == "USW00099002");
    CHECK((*stations)[1].id == "USC00990001");
    CHECK((*stations)[1].latitude.value == 44.21);
  }

  TEST_CASE("a station without an id or a place is left out, and what is no list of them is refused") {
    const auto read = [](const std::string& text) { return feeds::read_rain_stations("stations", text, place); };
    CHECK(read(R"({"results":[{"stations":[{"id":"../../x","coordinates":[1,2]}]},{"stations":[{"id":"A1"}]},{"stations":[]},{},7]})")
              ->empty());
    CHECK(read(R"({"results":[{"stations":[{"id":"A1","coordinates":[400,2]}]}]})")->empty());
    CHECK(read(R"({"results":[]})")->empty());
    CHECK(read("[]").error().line() == "stations: results: missing");
    CHECK(read(R"({"results":{}})").error().line().starts_with("stations: results"));
    CHECK_FALSE(read("<html>").has_value());
  }
}
