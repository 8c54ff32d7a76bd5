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
// What `target` holds is copied to `present_to` first, where it holds anything and that is not empty, under the same lock.
Book::Copied copy_from_file(const std::filesystem::path& file, Database& target, const std::filesystem::path& present_to);

// Rows of one table in the order of its key.
void each_row(Database& database, const Table& table, const std::function<void(const Cells&)>& take);

// What `rows` gives, table by table, into `target`, which must hold nothing. Throws Failure, with nothing changed, where it does or where
// that is no sound book.
Book::Copied fill(Database& target, const RowSource& rows);

}  // namespace store
