#include "sources/catalogue.h"

#include <doctest/doctest.h>

#include "net/address.h"

using settings::OpenMeteoUse;
using settings::Settings;

TEST_SUITE("sources") {
  TEST_CASE("by default a business asks whom any business may ask") {
    const auto chosen = sources::choose({});
    REQUIRE(chosen.has_value());
    CHECK(chosen->by_trust == std::vector<std::string>{"nws", "met-norway"});
    CHECK_FALSE(chosen->open_meteo);
  }

  TEST_CASE("Open-Meteo comes in only on a stated ground") {
    Settings s;
    s.open_meteo = OpenMeteoUse::non_commercial;
    CHECK(sources::choose(s)->by_trust == std::vector<std::string>{"nws", "open-meteo", "met-norway"});
    Settings listed;
    listed.services = {"open-meteo"};
    CHECK(sources::choose(listed).error().where == "config.toml: weather.open_meteo");
    Settings members;
    members.ensemble = true;
    CHECK_FALSE(sources::choose(members).has_value());
    listed.open_meteo = OpenMeteoUse::own_server;
    CHECK(sources::choose(listed).error().line() == "config.toml: weather.address.open-meteo: expected the address of your own server");
    listed.address["open-meteo"] = "https://our.example";
    CHECK(sources::choose(listed)->by_trust == std::vector<std::string>{"open-meteo"});
  }

  TEST_CASE("the owner's address goes before the paid one, and that before the free one") {
    Settings s;
    CHECK(sources::address_of("open-meteo", s) == "https://api.open-meteo.com");
    s.open_meteo = OpenMeteoUse::paid;
    CHECK(sources::address_of("open-meteo", s) == "https://customer-api.open-meteo.com");
    CHECK(sources::address_of("nws", s) == "https://api.weather.gov");
    s.address["open-meteo"] = "https://our.example/weather//";
    CHECK(sources::address_of("open-meteo", s) == "https://our.example/weather");
  }

  TEST_CASE("every service has an address that may be called, terms, and a credit where its licence asks for one") {
    for (const auto& service : sources::catalogue()) {
      CHECK(net::may_call(service.address));
      CHECK_FALSE(service.terms.empty());
      CHECK(service.credit.empty() == (service.terms.find("public domain") != std::string_view::npos));
    }
  }

  TEST_CASE("rates are the services' own, and the owner's contract replaces them with its own") {
    Settings s;
    const auto own = sources::rates(s);
    CHECK(own.at("open-meteo").per_day == 10'000.0);
    CHECK(own.at("open-meteo").at_once == 1);
    CHECK(own.at("nws").per_second == 1.0);
    CHECK(own.at("met-norway").per_second <= 20.0);
    s.calls_per_second["open-meteo"] = 50.0;
    CHECK(sources::rates(s).at("open-meteo").per_second == 50.0);
    CHECK_FALSE(sources::rates(s).at("open-meteo").per_day.has_value());
  }
}
