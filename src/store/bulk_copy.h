// Whole books from one database into another, table by table, in one transaction on either side. Only src/store includes this.
#pragma once
#include <filesystem>
#include <vector>

#include "store/book.h"
#include "store/database.h"
#include "store/migrations.h"

namespace store {

// A new SQLite book at `file` with the form of `steps` and everything that `source` holds at this moment; flushed, read back and compared.
// Nothing is left at `file` where it fails. Throws Failure where something is there already.
Book::Copied copy_into_new_file(Database& source, const std::filesystem::path& file, const std::vector<Migration>& steps);

// Everything that the book at `file` holds in the place of everything in `target`. The file may be of an older form: a copy of it is
// brought to ours first. Throws Failure where `file` is no sound book.
Book::Copied copy_from_file(const std::filesystem::path& file, Database& target);

// Rows of one table in the order of its key.
void each_row(Database& database, const Table& table, const std::function<void(const Cells&)>& take);

// What `rows` gives, table by table, in the place of everything in `target`. Throws Failure, with nothing changed, where that is no sound
// book.
Book::Copied replace_all(Database& target, const RowSource& rows);

}  // namespace store
