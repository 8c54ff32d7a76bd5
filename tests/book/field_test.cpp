// What a field takes, and its one canonical text.
#include "book/field.h"

#include <doctest/doctest.h>

#include <array>
#include <string>
#include <utility>

using namespace book;

namespace {

const Field diameter = number_field("dbh_cm", 2, 400, ""), count = whole_field("ports", 1, 400, ""), name = text_field("name", ""),
            note = note_field("note", ""), on = day_field("measured_on", ""), at = instant_field("at", ""),
            leave = clock_field("leave_by", ""), leaked = yes_no_field("leaked", ""),
            outcome = choice_field("outcome", {"done", "partial"}, "");

std::string kept(const Field& field, const std::string& written) {
  const auto value = canonical(field, written);
  return value ? *value : "refused: " + value.error().line();
}

bool refused(const Field& field, const std::string& written) { return !canonical(field, written); }

}  // namespace

TEST_SUITE("book: fields") {
  TEST_CASE("a number is kept in its shortest digits and within its limits") {
    CHECK(kept(diameter, " 120.50 ") == "120.5");
    CHECK(kept(diameter, "1.2e2") == "120");
    CHECK(kept(number_field("lat", -90, 90, ""), "-0.0") == "0");
    CHECK(kept(diameter, "2") == "2");
    CHECK(kept(diameter, "400") == "400");
    for (const char* bad : {"forty", "1.99", "400.01", "0x20", "nan", "inf", "1,5", "12 cm"}) CHECK_MESSAGE(refused(diameter, bad), bad);
    CHECK(canonical(diameter, "forty").error().line() == "dbh_cm: 'forty': expected a number from 2 to 400");
  }
  TEST_CASE("a whole number has no fraction") {
    CHECK(kept(count, "41.0") == "41");
    CHECK(refused(count, "41.5"));
  }
  TEST_CASE("a day must be a day that there is") {
    CHECK(kept(on, "2028-02-29") == "2028-02-29");
    for (const char* bad : {"2026-02-30", "2026-13-01", "2027-02-29", "7/9/2026", "2026-7-9", "2026-07-09T10:00Z"})
      CHECK_MESSAGE(refused(on, bad), bad);
  }
  TEST_CASE("an instant is kept in UTC") {
    CHECK(kept(at, "2026-07-09T09:30-05:00") == "2026-07-09T14:30Z");
    CHECK(refused(at, "2026-07-09T09:30"));
  }
  TEST_CASE("a clock, a yes, a choice are kept in one way each") {
    CHECK(kept(leave, "15:30") == "15:30");
    CHECK(refused(leave, "24:00"));
    CHECK(refused(leave, "3pm"));
    for (const char* yes : {"yes", "Y", "TRUE", "1"}) CHECK(kept(leaked, yes) == "yes");
    for (const char* no : {"no", "N", "False", "0"}) CHECK(kept(leaked, no) == "no");
    CHECK(refused(leaked, "perhaps"));
    CHECK(kept(outcome, "partial") == "partial");
    CHECK(kept(outcome, "Partial") == "partial");
    CHECK(refused(outcome, "half"));
  }
  TEST_CASE("nothing stays nothing") {
    for (const Field* field : {&diameter, &count, &name, &note, &on, &at, &leave, &leaked, &outcome}) CHECK(kept(*field, "  \t ").empty());
  }
  TEST_CASE("text is kept as written, whatever its script") {
    for (const char* good :
         {"O'Hara; DROP TABLE tree;--", "=1+2", "../../etc/passwd", "\xF0\x9F\x8C\xB3", "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D", "%s %n"})
      CHECK(kept(name, good) == good);
    CHECK(kept(note, "one\r\ntwo\tthree") == "one\ntwo\tthree");
  }
  TEST_CASE("NUL, control characters, broken UTF-8 and line breaks in one line are refused") {
    const std::array<std::string, 8> bad{std::string{"a\0b", 3}, "a\x1b[31mb", "a\x07", "\xC3\x28",
                                         "\xED\xA0\x80",         "a\nb",       "a\x7F", "a\xC2\x9B b"};
    for (const std::string& text : bad) CHECK(refused(name, text));
    CHECK(refused(note, std::string{"a\0b", 3}));
    CHECK(refused(note, "a\x1b[31mb"));
  }
  TEST_CASE("a note of a megabyte is kept, one beyond the limit refused") {
    CHECK(kept(note, std::string(1'000'000, 'x')).size() == 1'000'000);
    CHECK(refused(note, std::string(longest_note + 1, 'x')));
    CHECK(refused(name, std::string(longest_text + 1, 'x')));
    CHECK(canonical(note, std::string(longest_note + 1, 'x')).error().line().size() < 200);
  }
  TEST_CASE("canonical text is its own canonical text") {
    const std::array<std::pair<const Field*, const char*>, 6> written{
        {{&diameter, "120.50"}, {&count, "41.0"}, {&at, "2026-07-09T09:30-05:00"}, {&leaked, "Y"}, {&note, "a\r\nb"}, {&name, " x "}}};
    for (const auto& [field, text] : written) CHECK(kept(*field, kept(*field, text)) == kept(*field, text));
  }
  TEST_CASE("an id is one short line without blanks at its ends") {
    for (const char* good : {"elm-1", "Elm 1", "a/b", "\xD7\xA9"}) CHECK(canonical_id("tree", good));
    for (const std::string& bad :
         {std::string{}, std::string{" a"}, std::string{"a "}, std::string{"a\nb"}, std::string(65, 'a'), std::string{"a\0b", 3}})
      CHECK(!canonical_id("tree", bad));
  }
}
