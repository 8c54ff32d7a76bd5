// What a crew types at the tree.
#include "app/typed.h"

#include <doctest/doctest.h>

#include "support/within.h"

namespace {

using namespace std::chrono_literals;
using app::UnitSystem;

std::optional<long> minutes(std::string_view text) {
  const auto typed = app::typed_time(text);
  return typed && !typed->instant && !typed->day ? std::optional{static_cast<long>(typed->clock.count())} : std::nullopt;
}

double litres(std::string_view text, UnitSystem units = UnitSystem::us) {
  const auto amount = app::typed_amount(text, units);
  return amount ? amount->value : -1.0;
}

}  // namespace

TEST_SUITE("app") {
  TEST_CASE("a time of day is read in either clock") {
    CHECK(minutes("9:05") == 545);
    CHECK(minutes("09:05") == 545);
    CHECK(minutes(" 9:05 am ") == 545);
    CHECK(minutes("2:30PM") == 870);
    CHECK(minutes("2 pm") == 840);
    CHECK(minutes("12:00 pm") == 720);
    CHECK(minutes("12:10 am") == 10);
    CHECK(minutes("0:00") == 0);
    CHECK(minutes("23:59") == 1439);
  }

  TEST_CASE("what is no time of day is not read as one") {
    for (const char* text :
         {"", "9", "9:5", "9:60", "24:00", "13:00 pm", "0:30 am", "9:05 xm", "nine", "9:05:00", "-9:05", "9.05", ":30", "9: 5", "109:00"})
      CHECK_MESSAGE(!app::typed_time(text), text);
  }

  TEST_CASE("a time may carry its day, or be an instant") {
    const auto zone = units::ZoneOffsets{"x", {{units::UtcTime{}, -5h}}};
    const units::LocalDay meant{std::chrono::local_days{2026y / 7 / 6}};
    const auto at = [&](const char* text) { return units::to_text(app::typed_time(text).value().in(zone, meant)); };
    CHECK(at("9:05") == "2026-07-06T14:05Z");
    CHECK(at("2026-07-07 9:05") == "2026-07-07T14:05Z");
    CHECK(at("2026-07-07T09:05") == "2026-07-07T14:05Z");
    CHECK(at("2026-07-07T09:05Z") == "2026-07-07T09:05Z");
    CHECK(!app::typed_time("2026-13-07 9:05"));
  }

  TEST_CASE("an amount is in gallons or litres, by its unit or by the units in use") {
    CHECK(litres("12gal") == within(45.424941408, 1e-9));
    CHECK(litres("12.5 GAL") == within(47.3176473, 1e-9));
    CHECK(litres("40L") == 40.0);
    CHECK(litres("40 l", UnitSystem::us) == 40.0);
    CHECK(litres("10") == within(37.85411784, 1e-9));
    CHECK(litres("10", UnitSystem::si) == 10.0);
    for (const char* text : {"", "gal", "12cups", "-3gal", "1e2gal", "12,5gal", "inf", "nan L", "12 gal gal"})
      CHECK_MESSAGE(litres(text) == -1.0, text);
  }

  TEST_CASE("a reading is a time and an amount with a blank between") {
    const auto read = [](std::string_view text) {
      const auto typed = app::typed_reading(text, UnitSystem::us);
      return typed ? std::optional{std::pair{static_cast<long>(typed->time.clock.count()), std::lround(typed->amount.value)}}
                   : std::nullopt;
    };
    CHECK(read("10:00 12gal") == std::pair{600L, 45L});
    CHECK(read("10:00 am 12 gal") == std::pair{600L, 45L});
    CHECK(read("2 pm 40 L") == std::pair{840L, 40L});
    CHECK(read("10:00 12") == std::pair{600L, 45L});
    for (const char* text : {"10:00", "12gal", "10:00 gal", "12gal 10:00", "10:00 12cups", "10:00am12gal", ""})
      CHECK_MESSAGE(!read(text), text);
  }
}
