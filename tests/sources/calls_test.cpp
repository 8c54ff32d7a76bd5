#include "sources/calls.h"

#include <doctest/doctest.h>

#include "net/address.h"

namespace {

const sources::CellSite cell{sources::cell_of({units::Degrees{43.7}, units::Degrees{-91.9}, units::Metres{0.0}}), units::Metres{322.0},
                             "America/Chicago"};

bool has(const net::Want& want, const std::string& part) { return want.request.url.find(part) != std::string::npos; }

}  // namespace

TEST_SUITE("sources") {
  TEST_CASE("Open-Meteo is asked in UTC and SI, for the layers that models have, and the call is weighed as its service does") {
    const auto want = sources::open_meteo_forecast("https://api.example", cell, 3);
    CHECK(want.request.url.starts_with("https://api.example/v1/forecast?latitude=43.7000&longitude=-91.9000&elevation=322&hourly="));
    for (const char* part : {"&timezone=GMT&timeformat=unixtime", "temperature_unit=celsius", "wind_speed_unit=ms", "precipitation_unit=mm",
                             "&past_days=3&", "&forecast_days=16", "soil_moisture_10_to_40cm", "precipitation_probability"})
      CHECK(has(want, part));
    // 17 variables over 19 days, and over 108: variables / 10 x days / 14 (Open-Meteo's pricing page).
    CHECK(want.request.weight == doctest::Approx(1.7 * 19.0 / 14.0));
    CHECK(sources::open_meteo_forecast("https://api.example", cell, 92).request.weight == doctest::Approx(1.7 * 108.0 / 14.0));
    CHECK(sources::open_meteo_ensemble("https://e.example", cell).request.weight == doctest::Approx(18.6));
    CHECK(has(sources::open_meteo_archive("https://a.example", cell, units::LocalDay{std::chrono::year{2026} / 5 / 1},
                                          units::LocalDay{std::chrono::year{2026} / 5 / 31}),
              "&start_date=2026-05-01&end_date=2026-05-31&"));
  }

  TEST_CASE("places go to the National Weather Service without closing zeros, to MET Norway with two decimals") {
    CHECK(sources::nws_points("https://n.example", cell.cell).request.url == "https://n.example/points/43.7,-91.9");
    CHECK(sources::nws_points("https://n.example", cell.cell).settled == std::vector<int>{404});
    CHECK(sources::nws_alerts("https://n.example", cell.cell).request.url == "https://n.example/alerts/active?point=43.7,-91.9");
    CHECK(sources::met_norway_forecast("https://m.example", cell).request.url ==
          "https://m.example/complete?lat=43.70&lon=-91.90&altitude=322");
    const auto seen = sources::nws_observations(
        "https://n.example", "KXYZ", units::UtcTime{std::chrono::sys_days{std::chrono::year{2026} / 7 / 6}} + std::chrono::hours{13});
    CHECK(seen.request.url == "https://n.example/stations/KXYZ/observations?start=2026-07-06T00:00:00Z&limit=500");
  }

  TEST_CASE("the archive's box goes north, west, south, east, and a name is fit for an address") {
    const auto day = units::LocalDay{std::chrono::year{2026} / 5 / 1};
    CHECK(has(sources::rain_stations("https://r.example", cell.cell, day, day), "&bbox=44.00,-92.20,43.40,-91.60&"));
    CHECK(has(sources::daily_rain("https://r.example", "USC001", day, day), "/data/v1?dataset=daily-summaries&stations=USC001&"));
    CHECK(has(sources::daily_rain("https://r.example", "USC001", day, day), "&units=metric"));
    CHECK(has(sources::place_names("https://p.example", "St. Paul & Co/\xc3\xa9"), "name=St.%20Paul%20%26%20Co%2F%C3%A9&"));
  }

  TEST_CASE("every call may be called, and says what it takes for data") {
    const auto day = units::LocalDay{std::chrono::year{2026} / 5 / 1};
    for (const auto& want :
         {sources::open_meteo_forecast("https://a.example", cell, 92), sources::met_norway_forecast("https://a.example", cell),
          sources::nws_points("https://a.example", cell.cell), sources::rain_stations("https://a.example", cell.cell, day, day),
          sources::place_names("https://a.example", "x y")}) {
      CHECK(net::may_call(want.request.url));
      CHECK_FALSE(want.kinds.empty());
      CHECK_FALSE(want.request.key.has_value());
      CHECK(want.request.headers.front().name == "Accept");
    }
  }
}
