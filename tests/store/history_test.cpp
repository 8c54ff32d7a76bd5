// History: every change once, in order, with who, when, what.
#include <doctest/doctest.h>

#include "support/book_place.h"

TEST_SUITE("store: history") {
  TEST_CASE("each change leaves an entry with its author, its batch and its fields") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), add("tree", "elm-1", {{"site", "green"}, {"species", "elm"}})});
    keep(book, {change("tree", "elm-1", {{"species", "oak"}})});
    const auto all = book.history({});
    REQUIRE(all.size() == 3);
    for (std::size_t i = 0; i < all.size(); ++i) CHECK(all[i].number == static_cast<std::int64_t>(i + 1));
    CHECK(all[0].batch == all[1].batch);
    CHECK(all[1].batch != all[2].batch);
    CHECK(all[2].author.who == "Ann");
    CHECK(units::to_text(all[2].author.when) == "2026-07-06T10:30Z");
    CHECK(all[2].what == "change");
    CHECK(all[2].version == 2);
    CHECK(all[2].changes == std::map<std::string, book::Changed>{{"species", {"elm", "oak"}}});
    CHECK(book.history({.kind = "tree"}).size() == 2);
    CHECK(book.history({.last = 1}).front().number == 3);
    CHECK(book.history({.from = 2}).size() == 2);
  }
  TEST_CASE("numbers have no gap though changes were refused in between") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site()});
    for (int i = 0; i < 3; ++i) {
      CHECK(!book.apply({add("tree", "x", {{"site", "green"}})}, ann(), store::Mode::all_or_nothing).kept);
      CHECK(!book.apply({some_site("dry")}, ann(), store::Mode::dry_run).kept);
    }
    keep(book, {some_site("brown")});
    CHECK(book.history({}).back().number == 2);
    CHECK(book.check().empty());
  }
  TEST_CASE("check tells a record changed or taken away past history") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), some_site("brown"), add("client", "k", {{"name", "x"}})});
    CHECK(book.check().empty());
    SUBCASE("a value changed") {
      place.tamper("UPDATE site SET elevation_m = 321 WHERE id = 'green'");
      CHECK(book.check() == std::vector<std::string>{"site green: expected what history leads to: the record was changed past it"});
    }
    SUBCASE("a row taken away") {
      place.tamper("DELETE FROM site WHERE id = 'brown'");
      CHECK(book.check() == std::vector<std::string>{"site brown: expected a record: history knows it, the table does not"});
    }
    SUBCASE("a row put in") {
      place.tamper("INSERT INTO client (id, version, removed, name) VALUES ('z', 1, 0, 'z')");
      CHECK(book.check() == std::vector<std::string>{"client z: expected a history: the record has none"});
    }
    SUBCASE("an entry taken away") {
      place.tamper("DELETE FROM history WHERE number = 2");
      CHECK(book.check().size() == 2);
    }
    SUBCASE("a value that no field takes") {
      place.tamper("UPDATE client SET consent = 'maybe' WHERE id = 'k'");
      CHECK(book.check().front().find("client k: consent: 'maybe': expected one of yes, no, asked") == 0);
    }
  }
}
