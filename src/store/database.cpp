#include "store/database.h"

#include <fcntl.h>
#include <soci/postgresql/soci-postgresql.h>
#include <soci/sqlite3/soci-sqlite3.h>
#include <unistd.h>

#include <system_error>

#include "store/failure.h"

namespace store {
namespace {

// "sapd": what `file` and we tell a book by.
constexpr const char* application_id = "PRAGMA application_id = 1935765604";

void open_sqlite(soci::session& session, const Address& address, Database::Missing missing) {
  std::error_code error;
  if (!std::filesystem::exists(address.file, error)) {
    if (missing == Database::Missing::refuse)
      throw Failure(address.shown + ": expected a book: there is none yet; the first `sapdraw site add` or `tree import` makes it");
    if (address.file.has_parent_path()) std::filesystem::create_directories(address.file.parent_path(), error);
    // For the owner's eyes only: clients' names and numbers will stand in it.
    const int descriptor = ::open(address.file.c_str(), O_CREAT | O_WRONLY | O_CLOEXEC, 0600);
    if (descriptor >= 0) ::close(descriptor);
  }
  session.open(soci::sqlite3, "db=\"" + address.file.string() + "\"");
  for (const char* pragma : {"PRAGMA busy_timeout = 10000", "PRAGMA foreign_keys = ON", "PRAGMA secure_delete = ON",
                             "PRAGMA synchronous = FULL", "PRAGMA cell_size_check = ON", "PRAGMA trusted_schema = OFF"})
    session << pragma;
}

}  // namespace

Database::Database(const Address& address, Missing missing) : sqlite_(address.kind == Address::Kind::sqlite) {
  if (!sqlite_) {
    session_.open(soci::postgresql, address.connection);
    for (const char* setting : {"SET client_min_messages = warning", "SET client_encoding = 'UTF8'", "SET lock_timeout = '30s'",
                                "SET statement_timeout = 0", "SET synchronous_commit = on"})
      session_ << setting;
    return;
  }
  open_sqlite(session_, address, missing);
  if (whole("PRAGMA application_id") == 0 && whole("SELECT count(*) FROM sqlite_master") == 0 && missing == Missing::create) {
    session_ << application_id;
    session_ << "PRAGMA journal_mode = WAL";
  } else if (whole("PRAGMA application_id") != 1935765604) {
    throw Failure(address.shown + ": expected a book of sapdraw: this database is something else");
  } else if (missing == Missing::create && text("PRAGMA journal_mode") != "wal") {
    session_ << "PRAGMA journal_mode = WAL";  // a backup that was put in a book's place
  }
}

bool Database::has_table(const std::string& name) {
  int found = 0;
  session_ << (sqlite_ ? "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = :name"
                       : "SELECT count(*) FROM information_schema.tables WHERE table_schema = current_schema() AND table_name = :name"),
      soci::use(name, "name"), soci::into(found);
  return found > 0;
}

void Database::run(const std::string& sql) { session_ << sql; }

long long Database::whole(const std::string& sql) {
  long long number = 0;
  session_ << sql, soci::into(number);
  return number;
}

std::string Database::text(const std::string& sql) {
  std::string said;
  soci::indicator known = soci::i_ok;
  session_ << sql, soci::into(said, known);
  return said;
}

bool Database::empty_log() {
  long long busy = 0;
  if (sqlite_) session_ << "PRAGMA wal_checkpoint(TRUNCATE)", soci::into(busy);
  return busy == 0;
}

void Database::look_again() {
  try {
    if (!sqlite_) run("SET lock_timeout = '1s'");
    run("ANALYZE");
    if (!sqlite_) run("SET lock_timeout = '30s'");
  } catch (const soci::soci_error&) {
    // What was written is kept already; the next large change looks again.
  }
}

Transaction::Transaction(Database& database, For what) : database_(database), open_(!database.in_transaction_) {
  if (!open_) return;
  const bool writing = what == For::writing;
  if (database.is_sqlite())
    database.run(writing ? "BEGIN IMMEDIATE" : "BEGIN");
  else
    database.run(writing ? "BEGIN" : "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
  // What BEGIN IMMEDIATE is on SQLite. The lock hangs on no table, so that it also holds while the tables are made.
  try {
    if (writing && !database.is_sqlite()) (void)database.text("SELECT pg_advisory_xact_lock(1935765604)");
  } catch (const soci::soci_error&) {
    database.run("ROLLBACK");
    throw;
  }
  database.in_transaction_ = true;
}

Transaction::~Transaction() {
  if (!open_) return;
  database_.in_transaction_ = false;
  try {
    database_.run("ROLLBACK");
  } catch (const soci::soci_error&) {
    // The connection is gone, or SQLite has undone it itself: either way nothing of it stands.
  }
}

void Transaction::commit() {
  if (!open_) return;
  database_.run("COMMIT");
  database_.in_transaction_ = false;
  open_ = false;
}

}  // namespace store
