#include "feeds/time_zone.h"

#include <doctest/doctest.h>

#include "feeds/reading.h"

using namespace std::chrono_literals;
using feeds::load_zone;

TEST_SUITE("feeds") {
  TEST_CASE("a zone is loaded with its changes of clock") {
    // IANA tzdata: Chicago leaves UTC-6 for UTC-5 on 2026-03-08 at 08:00 UTC and returns on 2026-11-01 at 07:00 UTC.
    const auto zone = load_zone("America/Chicago", utc("2026-01-01T00:00Z"), utc("2026-12-31T00:00Z"));
    REQUIRE(zone);
    CHECK(zone->to_local(utc("2026-03-08T07:59Z")).time_since_epoch() == utc("2026-03-08T01:59Z").time_since_epoch());
    CHECK(zone->to_local(utc("2026-03-08T08:00Z")).time_since_epoch() == utc("2026-03-08T03:00Z").time_since_epoch());
    CHECK(zone->to_local(utc("2026-11-01T07:00Z")).time_since_epoch() == utc("2026-11-01T01:00Z").time_since_epoch());
    const auto day = *units::parse_day("2026-03-08");
    CHECK(zone->end_of(day) - zone->start_of(day) == 23h);
  }

  TEST_CASE("half-hour zones and UTC are zones like others") {
    const auto adelaide = load_zone("Australia/Adelaide", utc("2025-01-10T00:00Z"), utc("2025-01-12T00:00Z"));
    REQUIRE(adelaide);
    CHECK(adelaide->to_local(utc("2025-01-10T00:00Z")).time_since_epoch() == utc("2025-01-10T10:30Z").time_since_epoch());
    CHECK(load_zone("UTC", utc("2026-01-01T00:00Z"), utc("2026-01-01T00:00Z")));
  }

  TEST_CASE("a zone that the machine does not know is a fault and no exception") {
    for (const char* name : {"America/Springfield", "", "../../etc/passwd", "CST6CDT5"}) {
      const auto zone = load_zone(name, utc("2026-01-01T00:00Z"), utc("2026-12-31T00:00Z"));
      REQUIRE_MESSAGE(!zone, name);
      CHECK(zone.error().where == "zone");
    }
  }
}
