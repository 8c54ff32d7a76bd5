// A client's personal data, taken out for good.
#include <doctest/doctest.h>

#include <fstream>
#include <sstream>

#include "support/book_place.h"

namespace {

std::string everything_in(store::Book& book) {
  std::string all;
  book.each_row([&](const store::Table&, const store::Cells& row) {
    for (const auto& cell : row) all += cell.value_or("") + "\n";
  });
  return all;
}

}  // namespace

TEST_SUITE("store: erasing a client") {
  TEST_CASE("no personal value of the client is left in any table or in history") {
    const BookPlace place;
    auto book = place.open();
    auto site = some_site();
    site.set.insert({{"client", "k"}, {"gate", "GATECODE"}, {"address", "SITESTREET"}});
    keep(book, {add("client", "k", {{"name", "SECRETNAME"}, {"phone", "SECRETPHONE"}, {"consent", "yes"}}),
                add("client", "other", {{"name", "OTHERNAME"}}), site, add("tree", "elm-1", {{"site", "green"}, {"species", "elm"}}),
                add("job", "j", {{"tree", "elm-1"}, {"state", "done"}}),
                add("message", "m", {{"job", "j"}, {"state", "sent"}, {"body", "Dear SECRETNAME"}}),
                add("treatment", "old",
                    {{"tree", "elm-1"}, {"outcome", "done"}, {"day", "2020-07-09"}, {"for_name", "SECRETNAME"}, {"applicator", "BOB"}}),
                add("treatment", "new", {{"tree", "elm-1"}, {"outcome", "done"}, {"day", "2026-07-01"}, {"for_name", "LEGALNAME"}})});
    keep(book, {change("client", "k", {{"phone", "NEWPHONE"}})});
    const auto erased = book.erase_client("k", *units::parse_day("2024-07-06"), ann());
    REQUIRE(erased);
    CHECK(erased->records == 4);
    CHECK(erased->kept_treatments == 1);
    const std::string all = everything_in(book);
    for (const char* gone : {"SECRETNAME", "SECRETPHONE", "NEWPHONE", "GATECODE", "SITESTREET"})
      CHECK_MESSAGE(all.find(gone) == std::string::npos, gone);
    for (const char* stays : {"OTHERNAME", "LEGALNAME", "BOB", "elm-1"}) CHECK_MESSAGE(all.find(stays) != std::string::npos, stays);
    CHECK(book.find("client", "k")->text("name") == "erased");
    CHECK(book.find("client", "k")->text("consent") == "yes");
    CHECK(book.history({.kind = "client", .id = "k"}).back().what == "erase");
    CHECK(book.check().empty());
    if (place.is_sqlite()) {
      // Nor in the file's own bytes: freed pages are overwritten.
      std::stringstream bytes;
      for (const char* end : {"", "-wal"}) bytes << std::ifstream{place.address() + end, std::ios::binary}.rdbuf();
      CHECK(bytes.str().find("SECRETPHONE") == std::string::npos);
    }
  }
  TEST_CASE("erasing nobody is refused") {
    const BookPlace place;
    auto book = place.open();
    CHECK(book.erase_client("x", {}, ann()).error().line() == "client: 'x': expected the id of a client in the book");
  }
}
