#include "feeds/nws_points.h"

#include "feeds/outside_replies.h"
#include "feeds/reading.h"

TEST_SUITE("feeds") {
  TEST_CASE("a point names its grid cell by gridId, whether its numbers are numbers or texts") {
    const auto point = feeds::read_nws_point("points", sample_bytes("nws-points.json"));
    REQUIRE(point);
    CHECK(point->grid_id == "MAP");
    CHECK(point->grid_x == 12);
    CHECK(point->grid_y == 34);
    CHECK(point->forecast_grid_url == "https://api.weather.gov/gridpoints/MAP/12,34");
    CHECK(point->stations_url == "https://api.weather.gov/gridpoints/MAP/12,34/stations");
    CHECK(point->time_zone == "America/Chicago");
    CHECK(point->county_url == "https://api.weather.gov/zones/county/MNC999");
    CHECK(point->forecast_zone_url == "https://api.weather.gov/zones/forecast/MNZ999");
  }

  TEST_CASE("a point at sea may lack zones and stations") {
    const auto point =
        feeds::read_nws_point("points", R"({"properties":{"gridId":"MAP","gridX":0,"gridY":0,"forecastGridData":"x","county":null}})");
    REQUIRE(point);
    CHECK(!point->county_url);
    CHECK(!point->time_zone);
    CHECK(!point->stations_url);
    CHECK(!point->forecast_zone_url);
  }

  TEST_CASE("a point that is not one is refused with its member, its value and what was expected") {
    const auto refused = [](std::string_view content) {
      const auto point = feeds::read_nws_point("points", content);
      return point ? std::string{"was read"} : point.error().line();
    };
    CHECK(refused("{}") == "points: properties: missing");
    CHECK(refused(R"({"properties":{"gridX":1,"gridY":2,"forecastGridData":"x"}})") == "points: properties.gridId: missing");
    CHECK(refused(R"({"properties":{"gridId":"M","gridX":1.5,"gridY":2,"forecastGridData":"x"}})") ==
          "points: properties.gridX: '1.5': expected a whole number from 0 to 9999");
    CHECK(refused(R"({"properties":{"gridId":"M","gridX":"1","gridY":"-2","forecastGridData":"x"}})") ==
          "points: properties.gridY: '-2': expected a whole number from 0 to 9999");
    CHECK(refused(R"({"properties":{"gridId":"M","gridX":1,"gridY":2,"forecastGridData":"x\ny"}})") ==
          "points: properties.forecastGridData: 'x?y': expected a text of 1 to 300 bytes without control characters");
    // The body of a 404 outside the service's coverage (weather-gov/api issue 11), written by hand.
    CHECK(refused(R"({"type":"https://api.weather.gov/problems/InvalidPoint","title":"Data Unavailable For Requested Point","status":404,
      "detail":"Unable to provide data for requested point 51.5,-0.1"})") ==
          "points: 'Data Unavailable For Requested Point: Unable to provide data for requested point 51.5,-0.1': expected the grid cell of "
          "a place, not a service's error");
    CHECK(refused("<html>403</html>") == "points: '<html>403</html>': expected JSON, not a web page: the service is down or refused us");
    CHECK(refused("") == "points: empty: expected the grid cell of a place");
  }

  TEST_CASE("both recorded shapes of a point are read") {
    const auto older = recorded("nws_points_30_-85.json"), newer = recorded("nws_points_41.967_-71.189_20260715.json");
    if (!older || !newer) return;
    const auto panhandle = feeds::read_nws_point("older", *older);
    REQUIRE(panhandle);
    CHECK(panhandle->grid_id == "TAE");
    CHECK(panhandle->grid_x == 58);
    CHECK(panhandle->grid_y == 65);
    CHECK(panhandle->time_zone == "America/New_York");
    CHECK(panhandle->county_url == "https://api.weather.gov/zones/county/FLC037");
    const auto norton = feeds::read_nws_point("newer", *newer);
    REQUIRE(norton);
    CHECK(norton->forecast_grid_url == "https://api.weather.gov/gridpoints/BOX/70,82");
    CHECK(norton->forecast_zone_url == "https://api.weather.gov/zones/forecast/MAZ017");
    CHECK(norton->stations_url == "https://api.weather.gov/gridpoints/BOX/70,82/stations");
  }
}
