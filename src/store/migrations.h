// The schema's history: numbered steps, each a text of SQL that both databases read, never changed once released (a test holds their
// hashes).
#pragma once
#include <string>
#include <vector>

#include "store/database.h"

namespace store {

struct Migration {
  int number;
  std::string sql;
};

[[nodiscard]] const std::vector<Migration>& migrations();

// 64-bit FNV-1a of the text, as 16 hexadecimal digits (Fowler, Noll & Vo, IETF draft-eastlake-fnv).
[[nodiscard]] std::string fingerprint(const std::string& sql);

// Number of the last step that the book has seen; 0 for a new one.
[[nodiscard]] int schema_number(Database& database);

// Whether the book has seen all of `steps` and no other: then nothing needs to be locked.
[[nodiscard]] bool is_current(Database& database, const std::vector<Migration>& steps);

// Carries out the steps that the book has not seen, all in one transaction. Throws Failure where the book is newer than
// `steps`, or has seen a step of another text.
void migrate(Database& database, const std::string& shown, const std::vector<Migration>& steps);

}  // namespace store
