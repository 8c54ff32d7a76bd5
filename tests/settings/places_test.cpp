#include "settings/places.h"

#include <doctest/doctest.h>

#include <map>

namespace {

settings::Environment environment(std::map<std::string, std::string> variables) {
  return [variables = std::move(variables)](const std::string& name) {
    const auto found = variables.find(name);
    return found == variables.end() ? std::nullopt : std::optional{found->second};
  };
}

}  // namespace

TEST_SUITE("settings") {
  TEST_CASE("places follow the XDG Base Directory Specification") {
    const auto home = settings::find_places({}, environment({{"HOME", "/home/lea"}}));
    REQUIRE(home.has_value());
    CHECK(home->config == "/home/lea/.config/sapdraw/config.toml");
    CHECK(home->history == "/home/lea/.local/share/sapdraw/history");
    CHECK(home->cache == "/home/lea/.cache/sapdraw");
    const auto own = settings::find_places(
        {}, environment({{"HOME", "/home/lea"}, {"XDG_CONFIG_HOME", "/c"}, {"XDG_DATA_HOME", "relative"}, {"XDG_CACHE_HOME", ""}}));
    CHECK(own->config == "/c/sapdraw/config.toml");
    CHECK(own->history == "/home/lea/.local/share/sapdraw/history");
    CHECK(own->cache == "/home/lea/.cache/sapdraw");
  }

  TEST_CASE("without HOME the places must be given") {
    const auto none = settings::find_places({}, environment({}));
    REQUIRE_FALSE(none.has_value());
    CHECK(none.error().line() == "--config: expected a path: neither XDG_CONFIG_HOME nor HOME is set");
    CHECK(settings::find_places({"/a", "/b", {}}, environment({})).error().where == "--cache");
    const auto given = settings::find_places({"/a", "/b", "/c"}, environment({{"HOME", "/home/lea"}}));
    CHECK(given->config == "/a");
    CHECK(given->history == "/b");
    CHECK(given->cache == "/c");
  }
}
