// Backup, restore, export and import of whole books: what comes back is what was there.
#include <doctest/doctest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <map>

#include "support/book_place.h"
#include "support/random_book.h"

namespace {

store::Book::Copied measure(store::Book& book, const std::filesystem::path& scratch) {
  const auto copy = book.backup(scratch);
  std::filesystem::remove(scratch);
  return copy;
}

store::Book open_file(const std::filesystem::path& file) {
  return store::Book::open(*store::read_address(file.string()), store::Book::Missing::create, file.parent_path(), units::UtcTime{});
}

}  // namespace

TEST_SUITE("store: whole books") {
  TEST_CASE("a random book is sound, and its backup is the same book in a file") {
    const BookPlace place;
    auto book = place.open();
    keep(book, random_book(150, 7));
    CHECK(book.check().empty());
    const auto copy = book.backup(place.folder() / "backup.sqlite");
    auto there = open_file(place.folder() / "backup.sqlite");
    CHECK(there.check().empty());
    CHECK(measure(there, place.folder() / "again.sqlite").digest == copy.digest);
    for (const book::Kind& kind : book::kinds()) {
      const auto mine = book.list(kind.name, {.with_removed = true}), theirs = there.list(kind.name, {.with_removed = true});
      REQUIRE(mine.size() == theirs.size());
      for (std::size_t i = 0; i < mine.size(); ++i) {
        const auto same = there.find(kind.name, mine[i].id);  // databases sort ids differently
        REQUIRE(same);
        CHECK(same->fields == mine[i].fields);
        CHECK(same->version == mine[i].version);
        CHECK(same->removed == mine[i].removed);
      }
    }
  }
  TEST_CASE("restore brings back what a backup holds, whatever was done since") {
    const BookPlace place;
    auto book = place.open();
    keep(book, random_book(60, 3));
    const auto copy = book.backup(place.folder() / "backup.sqlite");
    keep(book, {some_site("later")});
    CHECK(book.restore(place.folder() / "backup.sqlite", place.folder() / "kept.sqlite").digest == copy.digest);
    CHECK(!book.find("site", "later"));
    CHECK(book.check().empty());
    keep(book, {some_site("later still"), add("client", "", {{"name", "next"}})});
    CHECK(book.check().empty());
  }
  TEST_CASE("all rows written out and read in are the same book") {
    const BookPlace place;
    auto book = place.open();
    keep(book, random_book(100, 11));
    std::map<std::string, std::vector<store::Cells>> rows;
    book.each_row([&](const store::Table& table, const store::Cells& row) { rows[table.name].push_back(row); });
    auto other = open_file(place.folder() / "other.sqlite");
    const auto copy = other.fill([&](const store::Table& table, const auto& write) {
      for (const auto& row : rows[table.name]) write(row);
    });
    CHECK(copy.digest == measure(book, place.folder() / "measured.sqlite").digest);
  }
  TEST_CASE("a book that would not be sound is not taken in") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site()});
    CHECK(failure([&] { (void)book.fill([](const store::Table&, const auto&) {}); }).find("expected a book that holds nothing yet") !=
          std::string::npos);
    auto empty = open_file(place.folder() / "empty.sqlite");
    const auto before = measure(empty, place.folder() / "a.sqlite");
    const auto with = [&](const store::Cells& site) {
      return failure([&] {
        (void)empty.fill([&](const store::Table& table, const auto& write) {
          if (table.name == "site") write(site);
          if (table.name == "counter") write({"history", "1"});
        });
      });
    };
    store::Cells cells(std::ranges::find(store::tables(), "site", &store::Table::name)->columns.size());
    cells[0] = "x";
    cells[1] = "1";
    cells[2] = "0";
    CHECK(with(cells) != "no failure");
    CHECK(measure(empty, place.folder() / "b.sqlite").digest == before.digest);
  }
  TEST_CASE("a backup is never laid over a file, and a damaged or foreign one is not restored") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site()});
    const auto file = place.folder() / "backup.sqlite";
    (void)book.backup(file);
    CHECK(failure([&] { (void)book.backup(file); }).find("expected a name that is free") != std::string::npos);
    CHECK(failure([&] { (void)book.restore(place.folder() / "none", {}); }).find("expected a backup") != std::string::npos);
    std::ofstream{place.folder() / "text"} << "no database";
    CHECK(failure([&] { (void)book.restore(place.folder() / "text", {}); }) != "no failure");
    CHECK(failure([&] { (void)book.backup("/proc/no/folder"); }) != "no failure");
    CHECK(book.find("site", "green"));
    CHECK(book.check().empty());
  }
  TEST_CASE("a backup that was tampered with is not restored, and its fault is told") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), add("tree", "elm-1", {{"site", "green"}, {"species", "elm"}})});
    (void)book.backup(place.folder() / "backup.sqlite");
    const std::string sql = "sqlite3 '" + (place.folder() / "backup.sqlite").string() + "' \"UPDATE tree SET species = 'oak'\"";
    REQUIRE(std::system(sql.c_str()) == 0);
    CHECK(failure([&] { (void)book.restore(place.folder() / "backup.sqlite", {}); }).find("tree elm-1: expected what history leads to") !=
          std::string::npos);
    CHECK(book.find("tree", "elm-1")->text("species") == "elm");
  }
  TEST_CASE("rows that hang in the air or contradict history are not taken in, by name") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), add("tree", "elm-1", {{"site", "green"}, {"species", "elm"}})});
    std::map<std::string, std::vector<store::Cells>> rows;
    book.each_row([&](const store::Table& table, const store::Cells& row) { rows[table.name].push_back(row); });
    const auto told = [&](const std::string& name) {
      auto other = open_file(place.folder() / (name + ".sqlite"));
      const std::string line = failure([&] {
        (void)other.fill([&](const store::Table& table, const auto& write) {
          for (const auto& row : rows[table.name]) write(row);
        });
      });
      CHECK(other.count("tree", true) == 0);
      return line;
    };
    const auto tree = std::ranges::find(store::tables(), "tree", &store::Table::name);
    const auto column = [&](const char* name) {
      return static_cast<std::size_t>(std::ranges::find(tree->columns, name, &store::TableColumn::name) - tree->columns.begin());
    };
    auto& cells = rows["tree"].front();
    SUBCASE("a value changed on the way") {
      cells[column("species")] = "oak";
      CHECK(told("changed").find("tree elm-1: expected what history leads to") != std::string::npos);
    }
    SUBCASE("a site that is not there") {
      cells[column("site")] = "nowhere";
      CHECK(told("hanging").find("tree elm-1: site: 'nowhere': expected a site in the book") != std::string::npos);
    }
    SUBCASE("history cut short") {
      rows["history"].pop_back();
      CHECK(told("cut").find("history: expected entries 1 to 2") != std::string::npos);
    }
  }
  TEST_CASE("a book that is in use is read while somebody writes, and a copy taken of its files is whole") {
    const BookPlace place;
    if (!place.is_sqlite()) return;
    auto book = place.open();
    keep(book, {some_site()});
    auto reader = place.open();  // keeps the log from being emptied
    keep(book, {add("client", "late", {{"name", "x"}})});
    std::filesystem::create_directory(place.folder() / "copy");
    for (const char* end : {"", "-wal"})
      std::filesystem::copy_file(place.address() + end, (place.folder() / "copy" / "book.sqlite").string() + end);
    auto other = open_file(place.folder() / "other.sqlite");
    (void)other.restore(place.folder() / "copy" / "book.sqlite", {});
    CHECK(other.find("client", "late"));
    CHECK(reader.find("client", "late"));
    // A desk that opens the book to read is not kept waiting by one that writes.
    const pid_t holder = ::fork();
    if (holder == 0) {
      ::execlp("sqlite3", "sqlite3", place.address().c_str(), "BEGIN IMMEDIATE;", ".shell sleep 30", static_cast<char*>(nullptr));
      ::_exit(127);
    }
    ::usleep(500'000);
    CHECK(failure([&] { CHECK(place.open().count("client", true) == 1); }) == "no failure");
    ::kill(holder, SIGKILL);
    ::waitpid(holder, nullptr, 0);
  }
  TEST_CASE("links hold and what is deleted is overwritten") {
    const BookPlace place;
    if (!place.is_sqlite()) return;
    auto book = place.open();
    keep(book, {some_site(), add("client", "k", {{"name", "x"}, {"note", "SECRET" + std::string(3000, 's')}})});
    keep(book, {change("client", "k", {{"note", ""}})});
    place.tamper("PRAGMA wal_checkpoint(TRUNCATE)");
    CHECK(failure([&] { (void)book.erase_client("k", {}, ann()); }) == "no failure");
    std::ifstream file{place.address(), std::ios::binary};
    const std::string bytes{std::istreambuf_iterator<char>{file}, {}};
    CHECK(bytes.find("SECRET") == std::string::npos);
  }
}
