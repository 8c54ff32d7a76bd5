#include "settings/settings.h"

#include <doctest/doctest.h>

using settings::OpenMeteoUse;
using settings::read_settings;

namespace {

std::string refusal(const std::string& content) {
  const auto read = read_settings("config.toml", content);
  return read ? "" : read.error().line();
}

}  // namespace

TEST_SUITE("settings") {
  TEST_CASE("an empty file leaves everything to the defaults, and nobody may be asked") {
    const auto read = read_settings("config.toml", "");
    REQUIRE(read.has_value());
    CHECK(read->contact.empty());
    CHECK(read->services.empty());
    CHECK(read->open_meteo == OpenMeteoUse::none);
    CHECK(read->cache_mb == 256);
  }

  TEST_CASE("every setting is read") {
    const auto read = read_settings("config.toml",
                                    "contact = \"office@trees.example\"\n"
                                    "[weather]\n"
                                    "services = [\"open-meteo\", \"nws\"]\n"
                                    "open_meteo = \"paid\"\n"
                                    "ensemble = true\n"
                                    "ca_file = \"/etc/our-ca.pem\"\n"
                                    "cache_mb = 64\n"
                                    "[weather.address]\n"
                                    "nws = \"http://127.0.0.1:8080\"\n"
                                    "daily-rain = \"https://rain.example/data\"\n"
                                    "[weather.calls_per_second]\n"
                                    "nws = 50\n"
                                    "[weather.key_file]\n"
                                    "open-meteo = \"/home/office/key\"\n");
    REQUIRE(read.has_value());
    CHECK(read->contact == "office@trees.example");
    CHECK(read->services == std::vector<std::string>{"open-meteo", "nws"});
    CHECK(read->open_meteo == OpenMeteoUse::paid);
    CHECK(read->ensemble);
    CHECK(read->ca_file == "/etc/our-ca.pem");
    CHECK(read->cache_mb == 64);
    CHECK(read->address.at("nws") == "http://127.0.0.1:8080");
    CHECK(read->address.at("daily-rain") == "https://rain.example/data");
    CHECK(read->calls_per_second.at("nws") == 50.0);
    CHECK(read->key_file.at("open-meteo") == "/home/office/key");
  }

  TEST_CASE("a contact is a mail or a web address, one word") {
    CHECK(read_settings("config.toml", "contact = \"https://trees.example/us\"").has_value());
    for (const std::string text : {"office", "@trees.example", "office@trees", "us@trees.example)", "a b@trees.example", "a@b.c\\nX: y"})
      CHECK(refusal("contact = \"" + text + "\"").find("contact: '") != std::string::npos);
    CHECK(refusal("contact = \"office\"") ==
          "config.toml:1: contact: 'office': expected a mail or web address at which the weather services can reach you");
    CHECK(refusal("contact = 7").find("expected a mail") != std::string::npos);
  }

  TEST_CASE("what is unknown, misspelt or out of range is refused with its line") {
    CHECK(refusal("contcat = \"a@b.c\"") == "config.toml:1: contcat: expected one of contact, weather, post");
    CHECK(refusal("\n[weather]\nservices = [\"nws\", \"nws\"]") ==
          "config.toml:3: weather.services: expected a list of nws, met-norway, open-meteo, each at most once");
    CHECK(refusal("[weather]\nservices = [\"radar\"]").starts_with("config.toml:2: weather.services"));
    CHECK(refusal("[weather]\nservices = []").starts_with("config.toml:2: weather.services"));
    CHECK(refusal("[weather]\nopen_meteo = \"free\"") ==
          "config.toml:2: weather.open_meteo: 'free': expected none, non-commercial, paid or own-server");
    CHECK(refusal("[weather]\ncache_mb = 0") == "config.toml:2: weather.cache_mb: '0': expected a whole number from 1 to 100000");
    CHECK(refusal("[weather]\nensemble = \"yes\"") == "config.toml:2: weather.ensemble: 'yes': expected true or false");
    CHECK(refusal("weather = 3") == "config.toml:1: weather: '3': expected a table");
    CHECK(refusal("[weather.calls_per_second]\nnws = 0") ==
          "config.toml:2: weather.calls_per_second.nws: '0': expected a number from 0.01 to 1000");
    CHECK(refusal("[weather.key_file]\nnws = \"x\"") == "config.toml:2: weather.key_file.nws: expected one of open-meteo");
    CHECK(refusal("[weather\n").starts_with("config.toml:1: expected TOML: "));
    CHECK(refusal("contact = \"\xff\"").starts_with("config.toml:1: expected TOML: "));
  }

  TEST_CASE("an address is https, or http on this machine, and nothing but an address") {
    for (const std::string good :
         {"https://api.example", "https://api.example/v1", "http://127.0.0.1:9", "http://[::1]:80/x", "http://localhost/"})
      CHECK(refusal("[weather.address]\nnws = \"" + good + "\"") == "");
    for (const std::string bad : {"http://api.example", "ftp://x", "https://", "http://localhost.example", "https://user@host",
                                  "https://a/?b", "http://127.0.0.1.example@host", "https://a b"}) {
      const std::string line = refusal("[weather.address]\nnws = \"" + bad + "\"");
      CHECK(line.starts_with("config.toml:2: weather.address.nws: expected an address that begins https://"));
      if (bad != "https://") CHECK(line.find(bad) == std::string::npos);  // it may hold a key
    }
  }
}
