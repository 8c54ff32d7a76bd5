#include "store/failure.h"

#include <soci/postgresql/soci-postgresql.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string_view>

namespace store {
namespace {

// The library's own texts carry bound values, so nothing of them is passed on.
std::string told(const soci::sqlite3_soci_error& error) {
  switch (error.result() & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return "expected the book to be free: another program has held it for too long; try again";
    case SQLITE_FULL:
      return "expected room on the disk: it is full; nothing of this change was kept";
    case SQLITE_READONLY:
      return "expected a file and a folder that can be written: a book is read through them too; nothing was changed";
    case SQLITE_CANTOPEN:
      return "expected a book that can be opened: no such folder, or no right to it";
    case SQLITE_PERM:
    case SQLITE_AUTH:
      return "expected the right to use this file";
    case SQLITE_IOERR:
      return "expected a disk that can be read and written: it reports an error; nothing of this change was kept";
    case SQLITE_CORRUPT:
      return "expected a sound book: the file is damaged; see `sapdraw book check`, then `sapdraw book restore` a backup";
    case SQLITE_NOTADB:
      return "expected a book of sapdraw: this file is none, or its beginning is damaged";
    default:
      return "the book's database refused the work (SQLite code " + std::to_string(error.result()) + ")";
  }
}

std::string told(const soci::postgresql_soci_error& error) {
  const std::string state = error.sqlstate();
  const auto is = [&](std::string_view start) { return state.starts_with(start); };
  if (is("08") || is("57P") || state.find_first_not_of(" 0") == std::string::npos)
    return "the connection to the database was lost; a change under way was either kept whole or not at all: look before you type it again";
  if (is("28")) return "expected a user and password that the database knows";
  if (is("3D")) return "expected a database of that name";
  if (is("42501")) return "expected a user who may use the book's tables";
  if (is("25006")) return "expected a database that can be written; nothing of this change was kept";
  if (is("42P07")) return "expected a book, or a database without tables of other programs";
  if (is("53100")) return "expected room on the database's disk: it is full; nothing of this change was kept";
  if (is("55P03") || is("57014")) return "expected the book to be free: another desk has held it for too long; try again";
  return "the book's database refused the work (SQLSTATE " + state + ")";
}

}  // namespace

void guarded(const std::string& shown, const std::function<void()>& work) {
  try {
    work();
  } catch (const soci::sqlite3_soci_error& error) {
    throw Failure(shown + ": " + told(error));
  } catch (const soci::postgresql_soci_error& error) {
    throw Failure(shown + ": " + told(error));
  } catch (const nlohmann::json::exception&) {
    throw Failure(shown + ": expected a sound book: a cell of the owner's fields or of history is damaged; see `sapdraw book check`");
  } catch (const std::filesystem::filesystem_error& error) {
    throw Failure(error.path1().string() + ": expected a place that can be written");
  } catch (const soci::soci_error& error) {
    const std::string_view what = error.what();
    throw Failure(shown +
                  (what.find("establish connection") != std::string_view::npos || what.find("onnection failed") != std::string_view::npos
                       ? ": expected a database that answers: host, port, name, user and password as it knows them"
                       : ": the book's database refused the work"));
  }
}

}  // namespace store
