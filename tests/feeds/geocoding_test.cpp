#include "feeds/geocoding.h"

#include <algorithm>

#include "feeds/outside_replies.h"
#include "feeds/reading.h"

namespace {

std::string refused_places(std::string_view content) {
  const auto places = feeds::read_places("places", content);
  return places ? "was read" : places.error().line();
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("places of a name keep the service's order, and what a hit does not say is missing") {
    const auto places = feeds::read_places("places", sample_bytes("places.json"));
    REQUIRE(places);
    REQUIRE(places->size() == 2);
    const auto& mills = (*places)[0];
    CHECK(mills.name == "Thornby Mills");
    CHECK(mills.latitude.value == 44.2);
    CHECK(mills.longitude.value == -93.4);
    CHECK(mills.admin1 == "Minnesota");
    CHECK(mills.country == "United States");
    CHECK(mills.zone == "America/Chicago");
    CHECK(mills.elevation == units::Metres{300.0});
    CHECK(mills.population == 4100.0);
    const auto& bare = (*places)[1];
    CHECK((!bare.admin1 && !bare.country && !bare.zone && !bare.elevation && !bare.population));
  }

  TEST_CASE("a name that nobody knows is an empty list, a reply of another kind is refused") {
    const auto none = feeds::read_places("places", R"({"generationtime_ms":0.1})");
    REQUIRE(none);
    CHECK(none->empty());
    CHECK(refused_places("{}") == "places: results: missing");
    CHECK(refused_places(R"({"error":true,"reason":"Parameter count must be between 1 and 100."})") ==
          "places: 'Parameter count must be between 1 and 100.': expected places, not a service's error");
    CHECK(refused_places(R"({"results":[{"latitude":1,"longitude":2}]})") == "places: results[0].name: missing");
    CHECK(refused_places(R"({"results":[{"name":"A","latitude":1,"longitude":200}]})") ==
          "places: results[0].longitude: '200': expected a longitude from -180 to 180");
    CHECK(refused_places(R"({"results":[{"name":"A","latitude":1,"longitude":2,"population":-1}]})") ==
          "places: results[0].population: '-1': expected a number from 0 to 10000000000");
    CHECK(refused_places(R"({"results":[{"name":"A","latitude":1,"longitude":2,"timezone":5}]})") ==
          "places: results[0].timezone: '5': expected a text");
  }

  TEST_CASE("the recorded places called Hollywood, some without a population") {
    const auto content = recorded("open_meteo_geocoding_hollywood_20250406.json"), none = recorded("open_meteo_geocoding_no_hit.json");
    if (!content || !none) return;
    const auto places = feeds::read_places("hollywood", *content);
    REQUIRE(places);
    CHECK(places->size() == 10);
    CHECK((*places)[0].admin1 == "Florida");
    CHECK((*places)[0].population == 149728.0);
    CHECK((*places)[1].latitude.value == 34.09834);
    CHECK((*places)[1].zone == "America/Los_Angeles");
    CHECK(std::any_of(places->begin(), places->end(), [](const auto& place) { return !place.population; }));
    CHECK(std::any_of(places->begin(), places->end(), [](const auto& place) { return place.name != "Hollywood"; }));
    const auto no_hit = feeds::read_places("none", *none);
    REQUIRE(no_hit);
    CHECK(no_hit->empty());
  }
}
