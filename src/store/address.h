// Where a book lies: a SQLite file, or a PostgreSQL database.
#pragma once
#include <filesystem>
#include <string>

#include "units/fault.h"

namespace store {

struct Address {
  enum class Kind { sqlite, postgresql };
  Kind kind = Kind::sqlite;
  std::filesystem::path file;  // SQLite
  std::string connection;      // PostgreSQL: key=value pairs of libpq
  std::string shown;           // for messages: without a password
};

// A path; or `postgresql://user@host:port/database` or `host=... dbname=...`, as libpq has them
// (https://www.postgresql.org/docs/15/libpq-connect.html, 34.1.1). What looks like one of these and is none is refused, and never repeated.
// Faults, as --book: an empty text, a path with a double quote or a control character, an address that libpq does not understand.
[[nodiscard]] units::Result<Address> read_address(const std::string& written);

}  // namespace store
