// Quiet hours, and what does not wait for them.
#include "book/quiet_hours.h"

#include <doctest/doctest.h>

using namespace book;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

const units::LocalDay tuesday = *units::parse_day("2026-07-07");
const QuietHours night{hours{21}, hours{6}}, noon{hours{12}, hours{13}};
const AtWork seven_to_four{hours{7}, hours{16}, 1.5};

std::optional<units::LocalTime> held(const QuietHours& quiet, minutes clock, Purpose purpose = Purpose::evening,
                                     const AtWork& at_work = seven_to_four) {
  return held_until(quiet, purpose, tuesday, at_work, tuesday + clock);
}

}  // namespace

TEST_SUITE("book: quiet hours") {
  TEST_CASE("over midnight they end on the day on which they end") {
    CHECK(held(night, hours{21}) == tuesday + hours{30});
    CHECK(held(night, minutes{23 * 60 + 59}) == tuesday + hours{30});
    CHECK(held(night, minutes{0}) == tuesday + hours{6});
    CHECK(held(night, hours{6}) == std::nullopt);
    CHECK(held(night, minutes{21 * 60 - 1}) == std::nullopt);
  }
  TEST_CASE("within a day likewise, and from a time until the same time there are none") {
    CHECK(held(noon, hours{12}) == tuesday + hours{13});
    CHECK(held(noon, hours{13}) == std::nullopt);
    CHECK(held({}, hours{3}) == std::nullopt);
  }
  TEST_CASE("a correction of the day does not wait while the crew is at work, its overtime counted") {
    const QuietHours always{minutes{1}, minutes{0}};
    CHECK(held(always, hours{7}, Purpose::correction) == std::nullopt);
    CHECK(held(always, minutes{17 * 60 + 30}, Purpose::correction) == std::nullopt);
    CHECK(held(always, minutes{17 * 60 + 31}, Purpose::correction).has_value());
    CHECK(held(always, minutes{7 * 60 - 1}, Purpose::correction).has_value());
    CHECK(held(always, hours{9}, Purpose::morning).has_value());
    CHECK(held_until(always, Purpose::correction, tuesday + std::chrono::days{1}, seven_to_four, tuesday + hours{9}).has_value());
  }
  TEST_CASE("of a crew whose hours nobody gave, a correction of the day never waits") {
    CHECK(held(night, hours{22}, Purpose::correction, {}) == std::nullopt);
  }
}
