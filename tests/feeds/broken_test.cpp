// Inputs named by their fault in tests/broken, each with the exact line that a person reads.
#include <doctest/doctest.h>

#include <array>
#include <filesystem>

#include "feeds/reading.h"

namespace {

struct Broken {
  std::string_view file, line;
};
// Each line goes on after the file's name.
constexpr std::array broken_files{
    Broken{"met-no-temperature.json", ": properties.timeseries: missing: expected steps with air_temperature"},
    Broken{"met-time-repeats.json", ": properties.timeseries[1].time: '2026-07-06T00:00:00Z': expected a time after the step before it"},
    Broken{"met-unknown-unit.json", ": properties.meta.units.air_temperature: 'kelvin': expected the unit °C, degC, celsius, °F, degF"},
    Broken{"nws-empty-temperature.json", ": properties.temperature: missing: expected hours with a temperature"},
    Broken{"nws-interval-of-months.json",
           ": properties.temperature.values[0].validTime: '2026-07-06T00:00:00+00:00/P1M': expected an interval such as "
           "2026-07-15T12:00:00+00:00/PT6H"},
    Broken{"nws-overlap.json", ": properties.temperature.values[1]: '2026-07-06T02:00Z': expected a time after 2026-07-06T02:00Z"},
    Broken{"nws-unknown-unit.json", ": properties.windSpeed.uom: 'wmoUnit:furlong': expected the unit m/s, m_s-1, km/h, km_h-1, mp/h, kn"},
    Broken{"open-meteo-daily-only.json", ": hourly: missing"},
    Broken{"open-meteo-error.json",
           ": 'Hourly API request limit exceeded. Please try again in the next hour.': expected weather, not a service's error"},
    Broken{"open-meteo-humidity-0.json", ": hourly.relative_humidity_2m[0]: '0': expected rh_pct from 1 to 105"},
    Broken{"open-meteo-humidity-150.json", ": hourly.relative_humidity_2m[1]: '150': expected rh_pct from 1 to 105"},
    Broken{"open-meteo-no-temperature.json", ": hourly.temperature_2m: missing"},
    Broken{"open-meteo-no-unit.json", ": hourly_units.temperature_2m: missing"},
    Broken{"open-meteo-second-place.json", ": [1].hourly.temperature_2m[0]: '99': expected temp_c from -60 to 60"},
    Broken{"open-meteo-several-models.json",
           ": hourly.temperature_2m: missing: columns of several models in one reply; ask for one model at a time"},
    Broken{"open-meteo-short-column.json", ": hourly.temperature_2m: '1 values': expected 2, one a time"},
    Broken{"open-meteo-streaming-error.json",
           ": 'Unexpected error while streaming data: timeoutReached': expected a whole reply: the service broke off; ask again"},
    Broken{"open-meteo-temperature-68.json", ": hourly.temperature_2m[0]: '68': expected temp_c from -60 to 60"},
    Broken{"open-meteo-text-for-number.json", ": hourly.temperature_2m[1]: 'n/a': expected a number or null"},
    Broken{"open-meteo-three-hourly.json", ": hourly.time[1]: '1783306800': expected the hour after the one before it"},
    Broken{"open-meteo-time-goes-back.json", ": hourly.time[1]: '1783296000': expected the hour after the one before it"},
    Broken{"open-meteo-unknown-unit.json", ": hourly_units.temperature_2m: '°R': expected the unit °C, degC, celsius, °F, degF"},
    Broken{"station-column-twice.csv", ":1: 'temp_c': expected a column name once"},
    Broken{"station-decimal-comma.csv", ":2: temp_c: '20,5': expected a number or nothing"},
    Broken{"station-extra-field.csv", ":2: '4 fields': expected 3, as in the header"},
    Broken{"station-half-hour.csv", ":2: time_utc: '2026-07-06T01:30Z': expected a full hour as YYYY-MM-DDTHH:MMZ"},
    Broken{"station-header-only.csv", ":2: expected at least one row with a value"},
    Broken{"station-latin-1.csv", ":2: '2026-07-06T01:00Z,20?,80': expected UTF-8"},
    Broken{"station-negative-rain.csv", ":2: rain_mm: '-1': expected rain_mm from 0 to 400"},
    Broken{"station-no-humidity.csv", ":1: rh_pct: missing in the header: expected rh_pct or dew_point_c"},
    Broken{"station-nul-byte.csv", ":2: expected text, not NUL bytes"},
    Broken{"station-repeated-hour.csv", ":3: time_utc: '2026-07-06T01:00Z': expected a time after 2026-07-06T01:00Z"},
    Broken{"station-semicolons.csv", ":1: time_utc: missing in the header: expected comma-separated column names"},
    Broken{"station-word-for-number.csv", ":4: temp_c: 'warm': expected a number or nothing"},
    Broken{"weather-cut-off.json", ":3: expected whole JSON: it breaks off after 207 bytes"},
    Broken{"weather-empty.json", ": empty: expected a weather file"},
    Broken{"weather-other.json", ": expected Open-Meteo, NWS raw grid or MET Norway JSON: this is none of them"},
    Broken{"weather-problem.json",
           ": 'Forecast Grid Expired: The requested forecast grid was issued 2026-07-05T20:00:00Z and has expired.': expected weather, not "
           "a service's error"},
    Broken{"weather-too-large-number.json", ": expected JSON numbers that a double can hold"},
    Broken{"weather-web-page.json",
           ": '<html><head><title>502 Bad Gateway</title></head></html>': expected JSON or CSV, not a web page: the service is down or "
           "refused us"},
};

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("every broken weather file is refused with one clear line") {
    for (const Broken& broken : broken_files) {
      const std::string name{broken.file};
      const auto forecasts = feeds::read_weather(name, bytes_of(SAPDRAW_SOURCE_DIR "/tests/broken/" + name), noon());
      REQUIRE_MESSAGE(!forecasts, name);
      CHECK(forecasts.error().line() == name + std::string{broken.line});
    }
  }

  TEST_CASE("every broken weather file is tested") {
    std::size_t weather_files = 0;
    for (const auto& entry : std::filesystem::directory_iterator{SAPDRAW_SOURCE_DIR "/tests/broken"}) {
      const std::string name = entry.path().filename().string();
      for (const std::string_view kind : {"open-meteo-", "nws-", "met-", "station-", "weather-"})
        weather_files += name.starts_with(kind) ? 1 : 0;
    }
    CHECK(weather_files == broken_files.size());
  }

  TEST_CASE("an input larger than the bound is refused before it is parsed") {
    const std::string huge(feeds::largest_input_bytes + 1, '[');
    CHECK(refusal(huge) == "sample: '67108865 bytes': expected at most 67108864 bytes");
  }

  TEST_CASE("a hundred thousand brackets do not fell the parser") {
    CHECK(refusal(std::string(100'000, '[')).find("expected whole JSON") != std::string::npos);
    const std::string closed = std::string(100'000, '[') + std::string(100'000, ']');
    CHECK(refusal(closed).find("none of them") != std::string::npos);
  }
}
