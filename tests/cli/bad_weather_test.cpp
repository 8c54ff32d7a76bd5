// Weather that cannot be used: one clear line, exit 3, no crash; and weather that can be used with a word of warning.
#include <doctest/doctest.h>

#include <array>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "program.h"

namespace {

Ran air(const std::string& file) {
  return sapdraw({"air", "--weather", file, "--lat", "43.7", "--lon", "-91.9", "--elevation-m", "320", "--now", demo_now});
}

Ran days(const std::string& weather, const std::string& trees, const std::string& now = demo_now) {
  return sapdraw({"days", "--weather", weather, "--trees", trees, "--now", now});
}

// A station record of `hours` hours from 2026-07-06T00:00Z on, rain given or not.
std::string station_hours(int hours, bool rain) {
  std::string text = rain ? "time_utc,temp_c,rh_pct,cloud_pct,rain_mm\n" : "time_utc,temp_c,rh_pct,cloud_pct\n";
  for (int i = 0; i < hours; ++i) {
    const int day = 6 + i / 24, hour = i % 24;
    char line[64];
    std::snprintf(line, sizeof line, "2026-07-%02dT%02d:00Z,%d,60,20%s\n", day, hour, hour > 12 ? 27 : 19, rain ? ",0" : "");
    text += line;
  }
  return text;
}

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("every broken weather file is refused with one line that names it") {
    int files = 0;
    for (const auto& entry : std::filesystem::directory_iterator{SAPDRAW_SOURCE_DIR "/tests/broken"}) {
      const std::string name = entry.path().filename().string();
      if (name.starts_with("trees-")) continue;
      CAPTURE(name);
      const Ran ran = air(entry.path().string());
      CHECK(ran.exit == 3);
      CHECK(ran.out.empty());
      CHECK(lines_of(ran.err).size() == 1);
      CHECK(ran.err.starts_with(name + ":"));
      ++files;
    }
    CHECK(files >= 30);
  }

  TEST_CASE("a fault in a weather file is said by file, line and column or path") {
    CHECK(air("tests/broken/station-word-for-number.csv").err ==
          "station-word-for-number.csv:4: temp_c: 'warm': expected a number or nothing\n");
    CHECK(air("tests/broken/open-meteo-humidity-150.json").err ==
          "open-meteo-humidity-150.json: hourly.relative_humidity_2m[1]: '150': expected rh_pct from 1 to 105\n");
    CHECK(air("tests/broken/weather-empty.json").err == "weather-empty.json: empty: expected a weather file\n");
  }

  TEST_CASE("a weather file that is not there, or is a folder, is said so") {
    CHECK(air("no-such.json").err == "no-such.json: expected a file: there is none of that name\n");
    CHECK(air("weather-samples").err == "weather-samples: expected a file: this is a directory\n");
    CHECK(air("no-such.json").exit == 3);
  }

  TEST_CASE("one weather file refused leaves the others in service") {
    const Ran ran = sapdraw({"demand", "--weather", "tests/broken/weather-empty.json", "--weather", demo_weather, "--trees", demo_trees,
                             "--tree", "depot-elm", "--now", demo_now});
    CHECK(ran.exit == 3);
    CHECK(ran.err.find("weather-empty.json: empty: expected a weather file\n") != std::string::npos);
    CHECK(lines_of(ran.out).size() > 1000);
  }

  TEST_CASE("humidity that is null stays empty") {
    const Scratch scratch;
    const std::string file =
        scratch.file("null.json", R"({"latitude":43.7,"longitude":-91.9,"elevation":320,"utc_offset_seconds":0,"timezone":"GMT",)"
                                  R"("hourly_units":{"time":"iso8601","temperature_2m":"°C","relative_humidity_2m":"%"},)"
                                  R"("hourly":{"time":["2026-07-06T00:00","2026-07-06T01:00"],"temperature_2m":[20,21],)"
                                  R"("relative_humidity_2m":[null,50]}})");
    const Ran ran = air(file);
    CHECK(ran.exit == 0);
    CHECK(ran.out.find("\n2026-07-06T00:00Z,20,,,") != std::string::npos);
  }

  TEST_CASE("a forecast of less than a day answers no day and says until when it goes") {
    const Scratch scratch;
    const std::string weather = scratch.file("short.csv", station_hours(29, true));
    const std::string trees = scratch.file("trees.csv", tree_header + "\n" + good_tree + "\n");
    const Ran ran = days(weather, trees, "2026-07-06T00:30Z");
    CHECK(ran.exit == 3);
    CHECK(ran.err == "weather: 'ends 2026-07-07T04:00Z': expected at least one full local day after 2026-07-06T00:30Z\n");
  }

  TEST_CASE("weather that lies all in the past answers no day and says when it ends") {
    const Scratch scratch;
    const std::string trees = scratch.file("trees.csv", tree_header + "\n" + good_tree + "\n");
    const Ran ran = days(scratch.file("past.csv", station_hours(72, true)), trees, "2026-07-20T00:00Z");
    CHECK(ran.exit == 3);
    CHECK(ran.err == "weather: 'ends 2026-07-08T23:00Z': expected a forecast: at least one full local day ahead\n");
  }

  TEST_CASE("a forecast without past rain is answered, with the guess told") {
    const Scratch scratch;
    const std::string trees = scratch.file("trees.csv", tree_header + "\n" + good_tree + "\n");
    const Ran ran = days(scratch.file("ahead.csv", station_hours(72, true)), trees, "2026-07-06T00:00Z");
    CHECK(ran.exit == 0);
    CHECK(ran.out.find("No past rain in the weather file; it began from a guess, so ranges are wide") != std::string::npos);
    // The demo brings 61 past days.
    const auto soil_sd = [](const Arguments& arguments) {
      return nlohmann::json::parse(sapdraw(arguments).out)["trees"][0]["rew_sd_now"].get<double>();
    };
    const double guessed =
        soil_sd({"days", "--json", "--weather", (scratch.folder() / "ahead.csv").string(), "--trees", trees, "--now", "2026-07-06T00:00Z"});
    const double followed = soil_sd({"days", "--json", "--weather", demo_weather, "--trees", trees, "--now", demo_now});
    CHECK(guessed > 1.5 * followed);
  }
}
