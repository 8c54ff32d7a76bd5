// Lists and lookups.
#include <doctest/doctest.h>

#include "support/book_place.h"

namespace {

void plant(store::Book& book) {
  auto sick = some_site("sick");
  sick.set["disease_near_on"] = "2026-05-01";
  std::vector<book::Edit> edits{some_site(), sick};
  const auto tree = [&](const char* id, const char* site, book::Fields more = {}) {
    more.insert({{"site", site}, {"species", "American elm"}});
    edits.push_back(add("tree", id, more));
  };
  const auto treated = [&](const char* tree_id, const char* day, const char* outcome = "done") {
    edits.push_back(add("treatment", "", {{"tree", tree_id}, {"outcome", outcome}, {"day", day}}));
  };
  tree("old", "green");
  treated("old", "2019-07-01");
  treated("old", "2021-07-01");
  tree("recent", "green");
  treated("recent", "2025-07-01");
  treated("recent", "2026-07-01", "partial");
  tree("short", "green", {{"keeps_seasons", "1"}});
  treated("short", "2024-07-01");
  tree("never", "green");
  tree("gone", "green", {{"gone_on", "2022-01-01"}});
  treated("gone", "2018-07-01");
  tree("near", "sick");
  tree("hurry", "green", {{"urgent", "yes"}});
  keep(book, edits);
}

std::vector<std::string> ids(const std::vector<store::LastTreated>& trees) {
  std::vector<std::string> all;
  for (const auto& tree : trees) all.push_back(tree.tree + (tree.day.empty() ? "" : " " + tree.day));
  return all;
}

}  // namespace

TEST_SUITE("store: lookups") {
  TEST_CASE("the longest treated stand first, by their last full treatment, felled trees left out") {
    const BookPlace place;
    auto book = place.open();
    plant(book);
    CHECK(ids(book.longest_treated(0)) == std::vector<std::string>{"old 2021-07-01", "recent 2025-07-01", "short 2024-07-01"});
    CHECK(ids(book.longest_treated(1)) == std::vector<std::string>{"old 2021-07-01", "short 2024-07-01"});
    CHECK(book.never_treated() == 3);
    CHECK(ids(book.cannot_wait("2026-01-01")) == std::vector<std::string>{"hurry", "near"});
    CHECK(ids(book.cannot_wait("2026-06-01")) == std::vector<std::string>{"hurry"});
  }
  TEST_CASE("filters by value, by text, by day") {
    const BookPlace place;
    auto book = place.open();
    plant(book);
    keep(book, {add("tree", "odd", {{"site", "green"}, {"species", "100%_oak"}, {"dose_l", "12.5"}})});
    const auto listed = [&](const store::Filter& filter) { return book.list("tree", filter).size(); };
    CHECK(listed({}) == 8);
    CHECK(listed({.equal = {{"site", "sick"}}}) == 1);
    CHECK(listed({.equal = {{"dose_l", "12.5"}}}) == 1);
    CHECK(listed({.equal = {{"site", "green"}, {"keeps_seasons", "1"}}}) == 1);
    CHECK(listed({.holds = std::pair{"species", "ELM"}}) == 7);
    CHECK(listed({.holds = std::pair{"species", "0%_o"}}) == 1);
    CHECK(listed({.holds = std::pair{"species", "%"}}) == 1);
    CHECK(listed({.limit = 3}) == 3);
    CHECK(book.list("treatment", {.between_field = "day", .between_from = "2021-07-01", .between_until = "2025-07-01"}).size() == 3);
  }
  TEST_CASE("the latest diameter is the last measured, and of one day the last written") {
    const BookPlace place;
    auto book = place.open();
    plant(book);
    for (int i = 1; i <= 11; ++i)
      keep(book, {add("diameter", "",
                      {{"tree", "old"}, {"measured_on", i == 5 ? "2020-01-01" : "2026-05-01"}, {"dbh_cm", std::to_string(90 + i)}})});
    REQUIRE(book.latest_diameters("old").size() == 1);
    CHECK(book.latest_diameters("old").front().text("dbh_cm") == "101");
    CHECK(book.latest_diameters("never").empty());
    CHECK(book.latest_diameters("").size() == 1);
  }
  TEST_CASE("each hemisphere has its own order, and a short list leaves neither out") {
    const BookPlace place;
    auto book = place.open();
    auto south = some_site("south");
    south.set["lat"] = "-35";
    std::vector<book::Edit> edits{some_site(), south, add("tree", "s", {{"site", "south"}, {"species", "elm"}}),
                                  add("treatment", "", {{"tree", "s"}, {"outcome", "done"}, {"day", "2023-12-02"}})};
    for (int i = 0; i < 300; ++i) {
      const std::string id = "n" + std::to_string(i);
      edits.push_back(add("tree", id, {{"site", "green"}, {"species", "elm"}}));
      edits.push_back(add("treatment", "", {{"tree", id}, {"outcome", "done"}, {"day", "2023-11-15"}}));
    }
    keep(book, edits);
    const auto some = book.longest_treated(10);
    CHECK(some.size() == 11);
    CHECK(some.front().tree == "s");
  }
}
