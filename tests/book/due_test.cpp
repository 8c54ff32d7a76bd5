// Growing seasons since a treatment, and the day by which the next is due. Three seasons and early summer: common practice, no published
// source.
#include "book/due.h"

#include <doctest/doctest.h>

#include <vector>

using namespace book;
using units::LocalDay;

namespace {

LocalDay day(const char* text) { return *units::parse_day(text); }

// Leaves colour on 25 September (north) or 25 March (south) of every year.
std::vector<LocalDay> ends(bool south) {
  std::vector<LocalDay> all;
  for (int year = 2015; year < 2045; ++year)
    all.push_back(LocalDay{std::chrono::year{year} / (south ? std::chrono::March : std::chrono::September) / 25});
  return all;
}

Due north(const char* treated, const char* today, int keeps = 3) { return due(day(treated), day(today), keeps, ends(false), 181, false); }
Due south(const char* treated, const char* today) { return due(day(treated), day(today), 3, ends(true), 181, true); }

}  // namespace

TEST_SUITE("book: due") {
  TEST_CASE("a July treatment keeps its own season and two more, and is due by the end of June after") {
    CHECK(north("2023-07-09", "2026-05-01").by == day("2026-06-30"));
    CHECK(north("2023-07-09", "2026-05-01").seasons_since == 3);
    CHECK(!north("2023-07-09", "2026-06-30").overdue);
    CHECK(north("2023-07-09", "2026-07-01").overdue);
  }
  TEST_CASE("a treatment after the leaves have coloured counts for the season after") {
    CHECK(north("2023-10-10", "2026-05-01").by == day("2027-06-30"));
    CHECK(north("2023-10-10", "2024-05-01").seasons_since == 0);
    CHECK(north("2023-09-24", "2026-05-01").by == day("2026-06-30"));
  }
  TEST_CASE("a season has passed when its leaves have coloured") {
    CHECK(north("2023-07-09", "2023-09-24").seasons_since == 0);
    CHECK(north("2023-07-09", "2023-09-25").seasons_since == 1);
    CHECK(north("2023-07-09", "2026-11-26").seasons_since == 4);
  }
  TEST_CASE("the owner's number of seasons counts") {
    CHECK(north("2023-07-09", "2026-05-01", 1).by == day("2024-06-30"));
    CHECK(north("2023-07-09", "2026-05-01", 2).by == day("2025-06-30"));
    CHECK(north("2023-07-09", "2026-05-01", 5).by == day("2028-06-30"));
  }
  TEST_CASE("in the south seasons and early summer fall half a year later") {
    // Treated in January 2024: seasons end in March 2024, 2025 and 2026; the next early summer ends with the year.
    CHECK(south("2024-01-15", "2026-05-01").by == day("2026-12-30"));
    CHECK(south("2024-01-15", "2024-02-01").seasons_since == 0);
    CHECK(south("2024-01-15", "2026-04-01").seasons_since == 3);
    CHECK(south("2024-12-15", "2026-04-01").by == day("2027-12-30"));
  }
}
