// Fields that contradict each other, and fields of the owner's own.
#include "book/sense.h"

#include <doctest/doctest.h>

using namespace book;

namespace {

std::vector<units::Fault> of(const std::string& kind, const Fields& fields) { return nonsense({kind, "x", 1, false, fields}); }

}  // namespace

TEST_SUITE("book: sense") {
  TEST_CASE("a last day before the first is refused in its name") {
    const auto faults = of("day_off", {{"crew", "a"}, {"first_day", "2026-07-09"}, {"last_day", "2026-07-08"}});
    REQUIRE(faults.size() == 1);
    CHECK(faults.front().line() == "last_day: '2026-07-08': expected first_day (2026-07-09) or later");
    CHECK(of("day_off", {{"crew", "a"}, {"first_day", "2026-07-09"}, {"last_day", "2026-07-09"}}).empty());
    CHECK(of("treatment", {{"started_at", "2026-07-09T14:00Z"}, {"ended_at", "2026-07-09T13:59Z"}}).size() == 1);
    CHECK(of("site", {{"ticket_from", "2026-07-09"}, {"ticket_until", "2026-07-01"}}).size() == 1);
    CHECK(of("site", {{"ticket_until", "2026-07-01"}}).empty());
  }
  TEST_CASE("a day off is somebody's, a message goes to somebody, a week has the days it has") {
    CHECK(of("day_off", {{"first_day", "2026-07-09"}, {"last_day", "2026-07-09"}}).size() == 1);
    CHECK(of("day_off", {{"member", "bob"}, {"first_day", "2026-07-09"}, {"last_day", "2026-07-09"}}).empty());
    CHECK(of("message", {{"state", "draft"}, {"body", "x"}}).size() == 1);
    CHECK(of("message", {{"state", "draft"}, {"body", "x"}, {"purpose", "office"}}).empty());
    CHECK(of("crew", {{"name", "a"}, {"work_days", "Mo Tu Fr"}}).empty());
    CHECK(of("crew", {{"name", "a"}, {"work_days", "Mo Xx"}}).front().line() ==
          "work_days: 'Xx': expected days of the week: Mo Tu We Th Fr Sa Su");
  }
  TEST_CASE("a message that is to be sent says what for, by which road, when and until when; quiet hours have two ends") {
    Fields queued{{"state", "queued"},
                  {"body", "x"},
                  {"crew", "b"},
                  {"purpose", "evening"},
                  {"road", "text"},
                  {"made_at", "2026-07-06T22:00Z"},
                  {"next_try_at", "2026-07-06T22:00Z"},
                  {"not_after", "2026-07-07T12:00Z"}};
    CHECK(of("message", queued).empty());
    for (const char* field : {"purpose", "road", "made_at", "next_try_at", "not_after"}) {
      Fields less = queued;
      less.erase(field);
      CHECK(of("message", less).front().where == field);
    }
    queued["not_after"] = "2026-07-06T21:00Z";
    CHECK(of("message", queued).front().where == "not_after");
    CHECK(of("crew", {{"name", "a"}, {"quiet_from", "21:00"}}).front().line() ==
          "quiet_until: expected quiet_from and quiet_until together");
    CHECK(of("client", {{"name", "a"}, {"quiet_until", "06:00"}}).size() == 1);
  }
  TEST_CASE("an application begins on its day at the tree, within a day of its UTC date, and ends within three days") {
    CHECK(of("treatment", {{"day", "2026-07-09"}, {"started_at", "2026-07-10T01:30Z"}}).empty());
    CHECK(of("treatment", {{"day", "2026-07-09"}, {"started_at", "2026-07-11T01:30Z"}}).size() == 1);
    CHECK(of("treatment", {{"day", "2026-07-09"}, {"started_at", "2026-07-07T23:30Z"}}).size() == 1);
    CHECK(of("treatment", {{"day", "2026-07-09"}, {"started_at", "2026-07-09T14:00Z"}, {"ended_at", "2026-07-12T14:01Z"}}).size() == 1);
  }
  TEST_CASE("choices of an own field are taken without the blanks around them, and empty ones left out") {
    const Field ward = described_by({"own_field", "F1", 1, false, {{"name", "ward"}, {"type", "choice"}, {"choices", " north, south ,,"}}});
    CHECK(ward.choices == std::vector<std::string>{"north", "south"});
  }
  TEST_CASE("an own field needs a kind that there is, a plain name and, for a choice, its choices") {
    CHECK(of("own_field", {{"of_kind", "tree"}, {"name", "parcel"}, {"type", "text"}}).empty());
    CHECK(of("own_field", {{"of_kind", "shrub"}, {"name", "parcel"}, {"type", "text"}}).size() == 1);
    CHECK(of("own_field", {{"of_kind", "tree"}, {"name", "Parcel No"}, {"type", "text"}}).size() == 1);
    CHECK(of("own_field", {{"of_kind", "tree"}, {"name", "parcel"}, {"type", "choice"}}).size() == 1);
  }
  TEST_CASE("an own field takes what its description says") {
    const Field choice = described_by(
        {"own_field", "F1", 1, false, {{"of_kind", "tree"}, {"name", "ward"}, {"type", "choice"}, {"choices", "north,south"}}});
    CHECK(choice.name == "own_ward");
    CHECK(canonical(choice, "south"));
    CHECK(!canonical(choice, "east"));
    const Field day =
        described_by({"own_field", "F2", 1, false, {{"of_kind", "tree"}, {"name", "seen"}, {"type", "day"}, {"required", "yes"}}});
    CHECK(day.required);
    CHECK(!canonical(day, "2026-02-30"));
  }
}
