#include "feeds/kept_series.h"

#include <doctest/doctest.h>

#include "units/random.h"

using namespace feeds;
using weather::Provenance;
using weather::Series;
using weather::Variable;

namespace {

constexpr auto first = std::chrono::sys_days{std::chrono::year{2026} / 7 / 6} + std::chrono::hours{1};
constexpr std::string_view head =
    "# sapdraw kept weather 1: each hour is named by its end; o observed, a analysed, f forecast, i filled in, d derived\n";

// Values anywhere in what is allowed, every kind of provenance, holes.
Series any_series(std::uint64_t seed) {
  Series series{first, 50};
  series.soil.push_back({units::Metres{0.0}, units::Metres{0.1}, weather::Column{50}, weather::Column{50}});
  series.soil.push_back({units::Metres{0.1}, units::Metres{0.4}, weather::Column{50}, weather::Column{50}});
  std::size_t draw = 0;
  const auto fill = [&](weather::Column& column, double lowest, double highest) {
    for (std::size_t hour = 0; hour < 50; ++hour) {
      const double u = units::hashed_uniform(seed, 0, ++draw);
      if (u < 0.2) continue;
      column.set(hour, lowest + (highest - lowest) * units::hashed_uniform(seed, 1, draw),
                 static_cast<Provenance>(1 + static_cast<int>(5.0 * units::hashed_uniform(seed, 2, draw))));
    }
  };
  for (std::size_t v = 0; v < weather::variable_count; ++v) {
    const auto variable = static_cast<Variable>(v);
    if (units::hashed_uniform(seed, 3, v) > 0.2)
      fill(series[variable], weather::traits(variable).lowest, weather::traits(variable).highest);
  }
  fill(series.soil[0].moisture_m3_m3, 0.0, 1.0);
  fill(series.soil[1].temperature_c, -40.0, 70.0);
  return series;
}

bool same(const weather::Column& a, const weather::Column& b) {
  for (std::size_t hour = 0; hour < std::max(a.size(), b.size()); ++hour)
    if (a.has(hour) != b.has(hour) || (a.has(hour) && (*a.at(hour) != *b.at(hour) || a.provenance(hour) != b.provenance(hour))))
      return false;
  return true;
}

std::string refusal(const std::string& text) {
  const auto read = read_kept("kept.csv", text);
  return read ? "" : read.error().line();
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("kept weather comes back to the bit, with where every value came from") {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
      const Series series = any_series(seed);
      const auto read = read_kept("kept.csv", write_kept(series));
      REQUIRE(read.has_value());
      CHECK(read->first_label() == series.first_label());
      CHECK(read->hours() == series.hours());
      for (std::size_t v = 0; v < weather::variable_count; ++v)
        CHECK(same((*read)[static_cast<Variable>(v)], series[static_cast<Variable>(v)]));
      REQUIRE(read->soil.size() == 2);
      CHECK(same(read->soil[0].moisture_m3_m3, series.soil[0].moisture_m3_m3));
      CHECK(same(read->soil[1].temperature_c, series.soil[1].temperature_c));
      CHECK(read->soil[1].bottom == units::Metres{0.4});
    }
  }

  TEST_CASE("cut anywhere, kept weather is refused and never half read") {
    const std::string whole = write_kept(any_series(7));
    for (std::size_t length = 0; length < whole.size(); ++length) CHECK_FALSE(read_kept("kept.csv", whole.substr(0, length)).has_value());
  }

  TEST_CASE("what is not kept weather is refused with its place") {
    const std::string start = std::string{head} + "time_utc,temp_c\n";
    CHECK(refusal("time_utc,temp_c\n") == "kept.csv:1: 'time_utc,temp_c': expected kept weather, version 1");
    CHECK(refusal(start + "2026-07-06T01:00Z,20.5\n# end: 1 hours\n") ==
          "kept.csv:3: temp_c: '20.5': expected a number from -60 to 60 and a letter");
    CHECK(refusal(start + "2026-07-06T01:00Z,99a\n# end: 1 hours\n").starts_with("kept.csv:3: temp_c: '99a'"));
    CHECK(refusal(start + "2026-07-06T01:00Z,nana\n# end: 1 hours\n").starts_with("kept.csv:3: temp_c: 'nana'"));
    CHECK(refusal(start + "2026-07-06T01:00Z,20x\n# end: 1 hours\n").starts_with("kept.csv:3: temp_c: '20x'"));
    CHECK(refusal(start + "2026-07-06T01:00Z,20a\n2026-07-06T03:00Z,20a\n# end: 2 hours\n") ==
          "kept.csv:4: time_utc: '2026-07-06T03:00Z': expected the hour after the one above");
    CHECK(refusal(start + "2026-07-06T01:00Z,20a\n") == "kept.csv: expected '# end: 1 hours' as the last line: the file is cut off");
    CHECK(refusal(std::string{head} + "time_utc,dreams\n# end: 0 hours\n") == "kept.csv:2: 'dreams': expected a column of kept weather");
    CHECK(refusal(std::string{head} + "time_utc,temp_c,temp_c\n# end: 0 hours\n") == "kept.csv:2: 'temp_c': expected a column once");
    CHECK(refusal(std::string{head} + "time_utc,soil_moisture_0.4_0.1_m\n# end: 0 hours\n").starts_with("kept.csv:2: 'soil_moisture"));
    CHECK(read_kept("kept.csv", std::string{head} + "time_utc\n# end: 0 hours\n")->hours() == 0);
  }
}
