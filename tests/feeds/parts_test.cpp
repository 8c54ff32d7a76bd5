#include <doctest/doctest.h>

#include "feeds/declared_unit.h"
#include "feeds/iso_interval.h"
#include "feeds/reading.h"
#include "feeds/sea_level.h"
#include "feeds/text.h"
#include "support/within.h"

using namespace std::chrono_literals;
using namespace feeds;

TEST_SUITE("feeds") {
  TEST_CASE("declared units convert at zero and below as elsewhere") {
    CHECK((*conversion(UnitKind::temperature, "°F"))(32.0) == within(0.0, 1e-12));
    CHECK((*conversion(UnitKind::temperature, "degF"))(-40.0) == within(-40.0, 1e-12));
    CHECK((*conversion(UnitKind::temperature, "celsius"))(-3.5) == -3.5);
    CHECK((*conversion(UnitKind::speed, "km_h-1"))(0.0) == 0.0);
    CHECK((*conversion(UnitKind::speed, "kn"))(1.0) == within(0.514444, 1e-6));
    CHECK((*conversion(UnitKind::water_depth, "inch"))(1.0) == within(25.4, 1e-12));
    CHECK((*conversion(UnitKind::pressure, "Pa"))(101300.0) == within(101.3, 1e-9));
  }

  TEST_CASE("a unit of another kind is not known") {
    CHECK(!conversion(UnitKind::temperature, "mm"));
    CHECK(!conversion(UnitKind::speed, ""));
    CHECK(!conversion(UnitKind::water_depth, "m"));
    CHECK(expected_units(UnitKind::water_depth) == "expected the unit mm, inch");
  }

  TEST_CASE("ISO intervals of the grids are read, and durations without a fixed length refused") {
    const auto length = [](std::string_view duration) -> std::optional<std::chrono::seconds> {
      const auto interval = parse_interval("2026-07-15T12:00:00+00:00/" + std::string{duration});
      if (!interval) return std::nullopt;
      CHECK(interval->from == utc("2026-07-15T12:00Z"));
      return interval->until - interval->from;
    };
    CHECK(length("PT1H") == 1h);
    CHECK(length("P7DT13H") == 181h);
    CHECK(length("P1D") == 24h);
    CHECK(length("PT90M") == 90min);
    CHECK(length("PT1H30M15S") == 1h + 30min + 15s);
    for (const auto bad : {"P1Y", "P1M", "P1W", "PT0H", "PT-1H", "P", "PT", "1H", "PT1H ", "PT1H1H", "P999999999D", "P401D", "PT1.5H"})
      CHECK_MESSAGE(!length(bad).has_value(), bad);
    CHECK(!parse_interval("2026-07-15T12:00:00+00:00"));
    CHECK(!parse_interval("PT1H/2026-07-15T12:00:00Z"));
  }

  TEST_CASE("pressure at a site falls with its height as FAO-56 has it") {
    // Allen et al. (1998), FAO-56 annex 2 table 2.1: 101.3 kPa at 0 m, 90.0 at 1000 m, 81.8 at 1800 m... read with the sea-level value
    // 101.3.
    CHECK(station_pressure(units::Kilopascals{101.3}, units::Metres{0.0}).value == within(101.3, 1e-12));
    CHECK(station_pressure(units::Kilopascals{101.3}, units::Metres{1000.0}).value == within(90.0, 0.05));
    CHECK(station_pressure(units::Kilopascals{101.3}, units::Metres{1800.0}).value == within(81.8, 0.05));
  }

  TEST_CASE("numbers are read without the locale, whole or not at all") {
    CHECK(parse_number("-0.5") == -0.5);
    CHECK(parse_number("1e3") == 1000.0);
    for (const auto bad : {"", " 1", "1 ", "1,5", "0x10", "inf", "nan", "1e999", "+1", "1.2.3"}) CHECK_MESSAGE(!parse_number(bad), bad);
  }

  TEST_CASE("foreign text is made fit for one line") {
    CHECK(for_message("a\nb\x01\xff") == "a?b??");
    CHECK(for_message("Größe") == "Größe");
    CHECK(for_message("ééé", 4) == "éé...");
    CHECK(for_message(std::string(100, 'x')).size() == 63);
  }

  TEST_CASE("UTF-8 is told from what only looks like it") {
    CHECK(is_utf8("Größe 木 🌳"));
    for (const auto bad :
         {"\xff", "\xc3", "\xc0\xaf", "\xe0\x80\xaf", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\xf0\x8f\xbf\xbf", "caf\xe9 noir"})
      CHECK(!is_utf8(bad));
  }
}
