// The schema's steps: never changed once released, taken one after the other, an older book kept before.
#include "store/migrations.h"

#include <doctest/doctest.h>

#include "support/book_place.h"

namespace {

store::Book open_with(const BookPlace& place, const std::vector<store::Migration>& steps) {
  return store::Book::open(*store::read_address(place.address()), store::Book::Missing::create, place.folder() / "before",
                           *units::parse_instant("2026-07-06T10:30Z"), steps);
}

std::vector<store::Migration> with_a_step_more() {
  auto steps = store::migrations();
  steps.push_back({static_cast<int>(steps.size()) + 1,
                   "-- For the test only.\nCREATE TABLE later (\n  id TEXT PRIMARY KEY\n);\nALTER TABLE tree ADD COLUMN later TEXT;\n"});
  return steps;
}

}  // namespace

TEST_SUITE("store: migrations") {
  TEST_CASE("released steps are what they were: a change of the schema is a new step") {
    REQUIRE(store::migrations().size() == 4);
    CHECK(store::migrations()[0].number == 1);
    CHECK(store::fingerprint(store::migrations()[0].sql) == "1c5024e9d247db0e");
    CHECK(store::migrations()[1].number == 2);
    CHECK(store::fingerprint(store::migrations()[1].sql) == "97ecb06c73c62cf8");
    CHECK(store::migrations()[2].number == 3);
    CHECK(store::fingerprint(store::migrations()[2].sql) == "f6dc5076cca98114");
    CHECK(store::migrations()[3].number == 4);
    CHECK(store::fingerprint(store::migrations()[3].sql) == "f942a8536fc0b9a5");
  }
  TEST_CASE("the fingerprint is FNV-1a, by its published test vectors") {
    // Fowler, Noll & Vo, draft-eastlake-fnv, appendix C: 64 bits, from memory.
    CHECK(store::fingerprint("") == "cbf29ce484222325");
    CHECK(store::fingerprint("a") == "af63dc4c8601ec8c");
    CHECK(store::fingerprint("foobar") == "85944171f73967e8");
  }
  TEST_CASE("an older book is kept, then brought forward with all it holds") {
    const BookPlace place;
    {
      auto book = place.open();
      keep(book, {some_site(), add("client", "k", {{"name", "x"}})});
      CHECK(book.kept_before_migrating().empty());
    }
    const auto book = open_with(place, with_a_step_more());
    const auto kept = book.kept_before_migrating();
    CHECK(kept.filename() == "form-4-2026-07-06T1030Z.sqlite");
    auto old = store::Book::open(*store::read_address(kept.string()), store::Book::Missing::refuse, place.folder(), units::UtcTime{});
    CHECK(old.count("site", true) == 1);
    CHECK(old.check().empty());
    CHECK(open_with(place, with_a_step_more()).kept_before_migrating().empty());
  }
  TEST_CASE("a newer book is refused and left as it is") {
    const BookPlace place;
    { const auto book = open_with(place, with_a_step_more()); }
    CHECK(failure([&] { const auto book = place.open(); }).find("expected a book of form 4 or older: this one is of form 5") !=
          std::string::npos);
    CHECK(failure([&] { const auto book = open_with(place, with_a_step_more()); }) == "no failure");
  }
  TEST_CASE("a step that fails leaves the book in its older form") {
    const BookPlace place;
    {
      auto book = place.open();
      keep(book, {some_site()});
    }
    auto broken = with_a_step_more();
    broken.back().sql += "CREATE TABLE later (\n  id TEXT\n);\n";
    CHECK(failure([&] { const auto book = open_with(place, broken); }) != "no failure");
    auto book = place.open();
    CHECK(book.count("site", true) == 1);
    CHECK(book.check().empty());
  }
  TEST_CASE("another program's book of the same form is refused") {
    const BookPlace place;
    { const auto book = place.open(); }
    place.tamper("UPDATE schema_step SET fingerprint = 'x'");
    CHECK(failure([&] { const auto book = place.open(); }).find("made by another program") != std::string::npos);
  }
}
