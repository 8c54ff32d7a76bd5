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

// A message to a crew that names places of jobs, the client's among them or not.
book::Edit to_crew(const std::string& id, const std::string& state, const std::string& jobs) {
  const bool others = jobs == "j-other";
  return add("message", id,
             {{"crew", "b"},
              {"state", state},
              {"jobs", jobs},
              {"body", others ? "GO to OTHERPLACE" : "GO to SECRETPLACE"},
              {"subject", others ? "" : "SECRETPLACE"},
              {"order_json", others ? "{}" : R"({"stops":["SECRETPLACE"]})"},
              {"attachments", others ? "[]" : R"([{"text":"SECRETPLACE"}])"},
              {"send_to", "CREWPHONE"},
              {"purpose", "evening"},
              {"road", "email"},
              {"made_at", "2026-07-06T22:00Z"},
              {"next_try_at", "2026-07-06T22:00Z"},
              {"not_after", "2026-07-07T12:00Z"}});
}

}  // namespace

TEST_SUITE("store: erasing a client") {
  TEST_CASE("no personal value of the client is left in any table or in history") {
    const BookPlace place;
    auto book = place.open();
    auto site = some_site();
    site.set.insert({{"client", "k"}, {"gate", "GATECODE"}, {"address", "SITESTREET"}});
    keep(book, {add("client", "k", {{"name", "SECRETNAME"}, {"phone", "SECRETPHONE"}, {"consent", "yes"}}),
                add("client", "other", {{"name", "OTHERNAME"}}), site,
                add("own_field", "F1", {{"of_kind", "client"}, {"name", "fax"}, {"type", "text"}, {"personal", "yes"}}),
                add("own_field", "F2", {{"of_kind", "client"}, {"name", "ward"}, {"type", "text"}}),
                add("tree", "elm-1", {{"site", "green"}, {"species", "elm"}, {"note", "ask at the door"}}),
                add("job", "j", {{"tree", "elm-1"}, {"state", "done"}}),
                add("message", "m", {{"job", "j"}, {"client", "k"}, {"state", "sent"}, {"body", "Dear SECRETNAME"}}),
                add("crew", "b", {{"name", "CREWNAME"}}), to_crew("of the client", "queued", "j-other\nj"),
                to_crew("of others", "queued", "j-other"), to_crew("sent", "sent", "j"),
                add("treatment", "old",
                    {{"tree", "elm-1"},
                     {"outcome", "done"},
                     {"day", "2020-07-09"},
                     {"for_client", "k"},
                     {"for_name", "SECRETNAME"},
                     {"location", "SITESTREET"},
                     {"applicator", "BOB"}}),
                add("treatment", "new",
                    {{"tree", "elm-1"}, {"outcome", "done"}, {"day", "2026-07-01"}, {"for_client", "k"}, {"for_name", "LEGALNAME"}})});
    keep(book, {change("client", "k", {{"phone", "NEWPHONE"}, {"own_fax", "SECRETFAX"}, {"own_ward", "WARD"}})});
    const auto erased = book.erase_client("k", *units::parse_day("2024-07-06"), ann());
    REQUIRE(erased);
    CHECK(erased->records == 6);
    CHECK(book.find("message", "of the client")->text("state") == "cancelled");
    CHECK(book.find("message", "sent")->text("state") == "sent");
    CHECK(book.find("message", "sent")->text("send_to") == "CREWPHONE");
    CHECK(book.find("message", "of others")->text("body") == "GO to OTHERPLACE");
    CHECK(book.find("message", "of others")->text("state") == "queued");
    CHECK(erased->kept_treatments == 1);
    CHECK(erased->notes_to_look_at == std::vector<std::string>{"tree elm-1"});
    const std::string all = everything_in(book);
    for (const char* gone : {"SECRETNAME", "SECRETPHONE", "NEWPHONE", "SECRETFAX", "GATECODE", "SITESTREET", "SECRETPLACE"})
      CHECK_MESSAGE(all.find(gone) == std::string::npos, gone);
    for (const char* stays : {"OTHERNAME", "LEGALNAME", "BOB", "elm-1", "WARD"}) CHECK_MESSAGE(all.find(stays) != std::string::npos, stays);
    CHECK(book.find("client", "k")->text("name") == "erased");
    CHECK(book.find("client", "k")->text("consent") == "yes");
    CHECK(book.history({.kind = "client", .id = "k"}).back().what == "erase");
    CHECK(book.check().empty());
    if (place.is_sqlite()) {
      CHECK(erased->file_is_clean);
      // Nor in the file's own bytes: freed pages are overwritten.
      std::stringstream bytes;
      for (const char* end : {"", "-wal"}) bytes << std::ifstream{place.address() + end, std::ios::binary}.rdbuf();
      CHECK(bytes.str().find("SECRETPHONE") == std::string::npos);
    }
  }
  TEST_CASE("a site that has changed hands keeps what is its new client's and loses the old one's past") {
    const BookPlace place;
    auto book = place.open();
    auto site = some_site();
    site.set.insert({{"client", "a"}, {"gate", "OLDGATE"}});
    keep(book, {add("client", "a", {{"name", "ANAME"}}), add("client", "b", {{"name", "BNAME"}}), site,
                add("tree", "elm-1", {{"site", "green"}, {"species", "elm"}}),
                add("treatment", "of_a",
                    {{"tree", "elm-1"}, {"outcome", "done"}, {"day", "2020-07-09"}, {"for_client", "a"}, {"for_name", "ANAME"}})});
    keep(book, {change("site", "green", {{"client", "b"}})});
    keep(book, {change("site", "green", {{"gate", "NEWGATE"}})});
    SUBCASE("the old one goes") {
      REQUIRE(book.erase_client("a", *units::parse_day("2024-07-06"), ann()));
      const std::string all = everything_in(book);
      for (const char* gone : {"ANAME", "OLDGATE"}) CHECK_MESSAGE(all.find(gone) == std::string::npos, gone);
      CHECK(book.find("site", "green")->text("gate") == "NEWGATE");
      CHECK(book.find("site", "green")->text("client") == "b");
    }
    SUBCASE("the new one goes") {
      REQUIRE(book.erase_client("b", *units::parse_day("2024-07-06"), ann()));
      const std::string all = everything_in(book);
      CHECK(all.find("BNAME") == std::string::npos);
      CHECK(all.find("NEWGATE") == std::string::npos);
      CHECK(book.find("treatment", "of_a")->text("for_name") == "ANAME");
    }
    CHECK(book.check().empty());
  }
  TEST_CASE("erasing nobody is refused") {
    const BookPlace place;
    auto book = place.open();
    CHECK(book.erase_client("x", {}, ann()).error().line() == "client: 'x': expected the id of a client in the book");
  }
}
