// Bytes changed, lost and doubled at random: every reader answers with a value or a fault, never with a crash.
#include <doctest/doctest.h>

#include <array>
#include <random>

#include "feeds/reading.h"
#include "feeds/samples.h"
#include "feeds/trees_csv.h"

namespace {

std::string mutated(std::string text, std::mt19937& random) {
  constexpr std::string_view sharp = "{}[]\",:0-9eE.\n\r#TZ/P";
  const std::size_t changes = 1 + random() % 6;
  for (std::size_t i = 0; i < changes && !text.empty(); ++i) {
    const std::size_t at = random() % text.size();
    switch (random() % 4) {
      case 0:
        text[at] = static_cast<char>(random() % 256);
        break;
      case 1:
        text[at] = sharp[random() % sharp.size()];
        break;
      case 2:
        text.erase(at, 1 + random() % 12);
        break;
      default:
        text.insert(at, text.substr(random() % text.size(), random() % 24));
    }
  }
  return text;
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("mutated inputs are read or refused with one line of valid UTF-8, never a crash") {
    std::mt19937 random{20260706};
    std::size_t refused = 0;
    constexpr int rounds = 3000;
    for (const std::string_view sample : {samples::open_meteo, samples::nws_grid, samples::met_norway, samples::station_csv})
      for (int round = 0; round < rounds; ++round) {
        const auto forecasts = feeds::read_weather("mutated", mutated(std::string{sample}, random), noon());
        if (forecasts) {
          REQUIRE(!forecasts->empty());
          continue;
        }
        ++refused;
        REQUIRE(forecasts.error().line().find('\n') == std::string::npos);
        REQUIRE(forecasts.error().where.starts_with("mutated"));
      }
    for (int round = 0; round < rounds; ++round) {
      const auto file = feeds::read_trees("mutated", mutated(std::string{samples::trees_csv}, random));
      if (!file) ++refused;
    }
    CHECK(refused > 5 * rounds / 4);
  }
}
