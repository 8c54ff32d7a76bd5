#include "units/time.h"

#include <doctest/doctest.h>

using namespace std::chrono_literals;
using units::LocalDay;
using units::UtcTime;
using units::ZoneOffsets;

namespace {

UtcTime at(const char* text) { return *units::parse_instant(text); }

// America/Toronto around its 2026 clock changes (IANA tzdata): -5 h, -4 h from 8 March 07:00 UTC, -5 h again from 1 November 06:00 UTC.
ZoneOffsets toronto() {
  return {"America/Toronto", {{at("2025-11-02T06:00Z"), -5h}, {at("2026-03-08T07:00Z"), -4h}, {at("2026-11-01T06:00Z"), -5h}}};
}

}  // namespace

TEST_SUITE("units") {
  TEST_CASE("a local day is 23 hours long in spring and 25 in autumn") {
    const auto zone = toronto();
    const auto length = [&](const char* day) { return zone.end_of(*units::parse_day(day)) - zone.start_of(*units::parse_day(day)); };
    CHECK(length("2026-03-07") == 24h);
    CHECK(length("2026-03-08") == 23h);
    CHECK(length("2026-11-01") == 25h);
  }

  TEST_CASE("a skipped wall-clock time is the end of the gap and a repeated one its first pass") {
    const auto zone = toronto();
    CHECK(zone.to_utc(units::LocalTime{*units::parse_day("2026-03-08")} + 2h + 30min) == at("2026-03-08T07:00Z"));
    CHECK(zone.to_utc(units::LocalTime{*units::parse_day("2026-11-01")} + 1h + 30min) == at("2026-11-01T05:30Z"));
  }

  TEST_CASE("wall clock and instant undo each other away from the clock changes") {
    const auto zone = toronto();
    for (UtcTime t = at("2026-02-01T00:00Z"); t < at("2026-12-01T00:00Z"); t += 7h + 13min) {
      const bool repeated_hour = t >= at("2026-11-01T06:00Z") && t < at("2026-11-01T07:00Z");
      if (!repeated_hour) CHECK(zone.to_utc(zone.to_local(t)) == t);
    }
  }

  TEST_CASE("the day at the tree is not the day in Greenwich") {
    CHECK(units::to_text(toronto().day_of(at("2026-07-02T03:30Z"))) == "2026-07-01");
  }

  TEST_CASE("instants are read with any offset and refused when anything is off") {
    CHECK(at("2026-07-15T12:00:00+00:00") == at("2026-07-15T12:00Z"));
    CHECK(at("2026-07-15T08:00-04:00") == at("2026-07-15T12:00Z"));
    CHECK(at("2026-07-15T17:45+05:45") == at("2026-07-15T12:00Z"));
    for (const char* bad : {"2026-07-15T12:00", "2026-02-29T12:00Z", "2026-07-15T24:00Z", "2026-07-15 ", "15.07.2026T12:00Z", "2026-07-15T12:00+4"})
      CHECK_FALSE(units::parse_instant(bad).has_value());
  }

  TEST_CASE("the day of the year agrees with FAO-56 annex 2 table 2.5") {
    CHECK(units::day_of_year(*units::parse_day("2026-07-06")) == 187);
    CHECK(units::day_of_year(*units::parse_day("2026-12-31")) == 365);
    CHECK(units::day_of_year(*units::parse_day("2024-12-31")) == 366);
  }
}
