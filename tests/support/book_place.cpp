#include "support/book_place.h"

#include <doctest/doctest.h>
#include <soci/postgresql/soci-postgresql.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>
#include <stdlib.h>

#include <cstdlib>

BookPlace::BookPlace() {
  std::string pattern = (std::filesystem::temp_directory_path() / "sapdraw-book-XXXXXX").string();
  REQUIRE(::mkdtemp(pattern.data()) != nullptr);
  folder_ = pattern;
  const char* server = std::getenv("SAPDRAW_TEST_POSTGRESQL");
  address_ = server != nullptr ? server : (folder_ / "book.sqlite").string();
  if (server != nullptr) tamper("DROP SCHEMA public CASCADE; CREATE SCHEMA public");
}

BookPlace::~BookPlace() {
  std::error_code error;
  std::filesystem::remove_all(folder_, error);
}

store::Book BookPlace::open() const {
  return store::Book::open(*store::read_address(address_), store::Book::Missing::create, folder_ / "before", units::UtcTime{});
}

void BookPlace::tamper(const std::string& sql) const {
  const auto address = store::read_address(address_);
  REQUIRE(address);
  soci::session session;
  if (is_sqlite())
    session.open(soci::sqlite3, "db=\"" + address_ + "\"");
  else
    session.open(soci::postgresql, address->connection);
  if (!is_sqlite()) session << "SET client_min_messages = error";
  session << sql;
}

book::Author ann() { return {"Ann", *units::parse_instant("2026-07-06T10:30Z"), ""}; }

book::Edit some_site(const std::string& id) {
  return add("site", id,
             {{"name", "Village green"},
              {"lat", "43.7"},
              {"lon", "-91.9"},
              {"elevation_m", "320"},
              {"zone", "America/Chicago"},
              {"soil", "loam"}});
}

void keep(store::Book& book, const std::vector<book::Edit>& edits) {
  const auto applied = book.apply(edits, ann(), store::Mode::all_or_nothing);
  for (const auto& refusal : applied.refusals)
    for (const auto& fault : refusal.faults) FAIL_CHECK(fault.line());
  REQUIRE(applied.kept);
}

std::string failure(const std::function<void()>& work) {
  try {
    work();
  } catch (const store::Failure& failed) {
    return failed.what();
  }
  return "no failure";
}
