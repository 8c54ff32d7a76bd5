#include "feeds/nws_stations.h"

#include "feeds/outside_replies.h"
#include "feeds/reading.h"

namespace {

const units::Site thornby{units::Degrees{44.2}, units::Degrees{-93.4}, units::Metres{300.0}};

std::string refused_stations(std::string_view content) {
  const auto stations = feeds::read_nws_stations("stations", content, thornby);
  return stations ? "was read" : stations.error().line();
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("stations are told nearest first, whatever the reply's order") {
    const auto stations = feeds::read_nws_stations("stations", sample_bytes("nws-stations.json"), thornby);
    REQUIRE(stations);
    REQUIRE(stations->size() == 2);
    CHECK((*stations)[0].id == "KTBM");
    CHECK((*stations)[0].name == "Thornby Mills, invented");
    CHECK(!(*stations)[0].elevation);
    CHECK((*stations)[1].id == "KHRP");
    CHECK((*stations)[1].longitude.value == -93.9);
    CHECK((*stations)[1].latitude.value == 44.4);
    CHECK((*stations)[1].elevation == units::Metres{301.5});
  }

  TEST_CASE("no station near a place is an empty list") {
    const auto stations = feeds::read_nws_stations("stations", R"({"features":[]})", thornby);
    REQUIRE(stations);
    CHECK(stations->empty());
  }

  TEST_CASE("stations that are none are refused with the member at fault") {
    CHECK(refused_stations("[]") == "stations: features: missing");
    CHECK(refused_stations(R"({"features":[{"properties":{"stationIdentifier":"KAAA"}}]})") == "stations: features[0].geometry: missing");
    CHECK(refused_stations(R"({"features":[{"geometry":{"coordinates":[-93,44]},"properties":{"stationIdentifier":"../x"}}]})") ==
          "stations: features[0].properties.stationIdentifier: '../x': expected letters and digits, at most 20");
    CHECK(refused_stations(R"({"features":[{"geometry":{"coordinates":[-93,144]},"properties":{"stationIdentifier":"KAAA"}}]})") ==
          "stations: features[0].geometry.coordinates[1]: '144': expected a latitude from -90 to 90");
    CHECK(
        refused_stations(
            R"({"features":[{"geometry":{"coordinates":[-93,44]},"properties":{"stationIdentifier":"KAAA","elevation":{"value":3,"unitCode":"unit:ft"}}}]})") ==
        "stations: features[0].properties.elevation.unitCode: 'unit:ft': expected the unit m");
  }
}
