#include "store/bulk_copy.h"

#include <fcntl.h>
#include <stdlib.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <system_error>

#include "store/query.h"
#include "store/verify.h"
#include "units/text.h"

namespace store {
namespace {

// The tables of a SQLite book in the order in which they were made: those linked to come before those that link.
std::vector<Table> tables_of(Database& sqlite) {
  std::vector<Table> tables;
  Query{sqlite, "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name <> 'schema_step' ORDER BY rowid"}
      .each([&](const soci::row& row) {
        tables.push_back({row.get<std::string>(0), {}});
      });
  for (Table& table : tables)
    Query{sqlite, "SELECT name, type FROM pragma_table_info(:name) ORDER BY cid"}.bind("name", table.name).each([&](const soci::row& row) {
      const std::string type = row.get<std::string>(1);
      table.columns.push_back({row.get<std::string>(0), type == "TEXT"     ? TableColumn::Type::text
                                                        : type == "BIGINT" ? TableColumn::Type::whole
                                                                           : TableColumn::Type::number});
    });
  return tables;
}

std::string names(const Table& table, const char* before) {
  std::string all;
  for (const TableColumn& column : table.columns) all += (all.empty() ? "" : ", ") + std::string{before} + column.name;
  return all;
}

// Rows in an order that both databases have in common: by the bytes of the first column, which is the key.
std::string selection(Database& database, const Table& table) {
  const bool by_text = table.columns.front().type == TableColumn::Type::text;
  return "SELECT " + names(table, "") + " FROM " + table.name + " ORDER BY " + table.columns.front().name +
         (by_text ? database.by_bytes() : "");
}

void each_row_of(Database& database, const Table& table, const std::function<void(const Cells&)>& take) {
  Cells cells(table.columns.size());
  Query{database, selection(database, table)}.each([&](const soci::row& row) {
    for (std::size_t i = 0; i < cells.size(); ++i)
      cells[i] = row.get_indicator(i) == soci::i_null ? std::nullopt : std::optional{text_of(row, i)};
    take(cells);
  });
}

// A running digest of cells; a cell's end and a missing cell have bytes of their own that no text has.
class Digest {
 public:
  void add(const std::string& text, bool known) {
    for (const char c : text) mix(static_cast<unsigned char>(c));
    mix(known ? 0x00 : 0x01);
  }
  [[nodiscard]] std::string text() const { return fingerprint(std::to_string(hash_)); }

 private:
  void mix(unsigned char byte) { hash_ = (hash_ ^ byte) * 1099511628211ULL; }
  unsigned long long hash_ = 14695981039346656037ULL;
};

class TableWriter {
 public:
  TableWriter(Database& database, const Table& table) : statement_(database.session()), cells_(table.columns.size()) {
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      Cell& cell = cells_[i];
      const std::string name = "c" + std::to_string(i);
      if (table.columns[i].type == TableColumn::Type::text)
        statement_.exchange(soci::use(cell.text, cell.known, name));
      else if (table.columns[i].type == TableColumn::Type::whole)
        statement_.exchange(soci::use(cell.whole, cell.known, name));
      else
        statement_.exchange(soci::use(cell.number, cell.known, name));
    }
    std::string values;
    for (std::size_t i = 0; i < cells_.size(); ++i) values += (i == 0 ? ":c" : ", :c") + std::to_string(i);
    statement_.alloc();
    statement_.prepare("INSERT INTO " + table.name + " (" + names(table, "") + ") VALUES (" + values + ")");
    statement_.define_and_bind();
  }

  void write(const Cells& row) {
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      Cell& cell = cells_[i];
      cell.known = row[i] ? soci::i_ok : soci::i_null;
      if (!row[i]) continue;
      cell.text = *row[i];
      cell.number = units::parse_number(cell.text).value_or(0.0);
      std::from_chars(cell.text.data(), cell.text.data() + cell.text.size(), cell.whole);
    }
    statement_.execute(true);
  }

 private:
  struct Cell {
    std::string text = {};
    long long whole = 0;
    double number = 0.0;
    soci::indicator known = soci::i_null;
  };
  soci::statement statement_;
  std::vector<Cell> cells_;
};

// In one order whichever step made a column: the key, then by name.
Book::Copied measured(Database& database, std::vector<Table> tables) {
  std::ranges::sort(tables, {}, &Table::name);
  for (Table& table : tables)
    std::sort(table.columns.begin() + 1, table.columns.end(), [](const TableColumn& a, const TableColumn& b) { return a.name < b.name; });
  Book::Copied found;
  Digest digest;
  for (const Table& table : tables) {
    digest.add(table.name, true);
    each_row_of(database, table, [&](const Cells& row) {
      ++found.rows;
      for (const auto& cell : row) digest.add(cell.value_or(""), cell.has_value());
    });
  }
  found.digest = digest.text();
  return found;
}

bool holds_anything(Database& database) { return database.whole("SELECT count(*) FROM history") > 0; }

// Within a transaction links are looked at when it ends, so the order of rows does not matter.
void empty(Database& target, const std::vector<Table>& tables) {
  for (auto table = tables.rbegin(); table != tables.rend(); ++table) target.run("DELETE FROM " + table->name);
}

void copy_rows(Database& source, Database& target, const std::vector<Table>& tables) {
  empty(target, tables);
  for (const Table& table : tables) {
    TableWriter writer{target, table};
    each_row_of(source, table, [&](const Cells& row) { writer.write(row); });
  }
}

void flush_to_disk(const std::filesystem::path& path) {
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  const bool flushed = descriptor >= 0 && ::fsync(descriptor) == 0;
  if (descriptor >= 0) ::close(descriptor);
  if (!flushed) throw Failure(path.string() + ": expected a disk that keeps what is written");
}

Address file_address(const std::filesystem::path& file) {
  auto address = read_address(file.string());
  if (!address) throw Failure(address.error().line());
  return *address;
}

// A scratch folder that only its owner may look into; gone with all that is in it.
class PrivateFolder {
 public:
  PrivateFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "sapdraw-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) throw Failure(pattern + ": expected a folder for scratch files that can be written");
    path_ = pattern;
  }
  ~PrivateFolder() {
    std::error_code error;
    std::filesystem::remove_all(path_, error);
  }
  PrivateFolder(const PrivateFolder&) = delete;
  PrivateFolder& operator=(const PrivateFolder&) = delete;
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

// What belongs to a SQLite file of this name.
void remove_file(const std::filesystem::path& file) {
  std::error_code error;
  for (const char* end : {"", "-wal", "-shm", "-journal"}) std::filesystem::remove(std::filesystem::path{file.string() + end}, error);
}

Book::Copied copied(Database& source, Database& copy) {
  const std::vector<Table> tables = tables_of(copy);
  Transaction reading{source, Transaction::For::reading};
  {
    Transaction writing{copy, Transaction::For::writing};
    copy_rows(source, copy, tables);
    writing.commit();
  }
  const Book::Copied was = measured(source, tables), is = measured(copy, tables);
  if (was.digest != is.digest) throw Failure("expected a copy equal to the book: it is not; nothing was kept");
  return is;
}

}  // namespace

const std::vector<Table>& tables() {
  using Type = TableColumn::Type;
  static const std::vector<Table> all = [] {
    std::vector<Table> list;
    for (const book::Kind& kind : book::kinds()) {
      Table table{kind.name, {{"id", Type::text}, {"version", Type::whole}, {"removed", Type::whole}}};
      for (const book::Field& field : kind.fields)
        table.columns.push_back({field.name, field.type == book::FieldType::number  ? Type::number
                                             : field.type == book::FieldType::whole ? Type::whole
                                                                                    : Type::text});
      table.columns.push_back({"own", Type::text});
      list.push_back(std::move(table));
    }
    list.push_back({"history",
                    {{"number", Type::whole},
                     {"batch", Type::whole},
                     {"at", Type::text},
                     {"who", Type::text},
                     {"why", Type::text, true},
                     {"kind", Type::text},
                     {"record", Type::text},
                     {"version", Type::whole},
                     {"what", Type::text},
                     {"changes", Type::text}}});
    list.push_back({"counter", {{"name", Type::text}, {"next", Type::whole}}});
    return list;
  }();
  return all;
}

void each_row(Database& database, const Table& table, const std::function<void(const Cells&)>& take) { each_row_of(database, table, take); }

Book::Copied fill(Database& target, const RowSource& rows) {
  Transaction writing{target, Transaction::For::writing};
  if (holds_anything(target)) throw Failure("expected a book that holds nothing yet; nothing was changed");
  empty(target, tables());
  for (const Table& table : tables()) {
    TableWriter writer{target, table};
    rows(table, [&](const Cells& row) { writer.write(row); });
  }
  if (const auto troubles = troubles_within(target); !troubles.empty())
    throw Failure("expected a sound book: " + troubles.front() + "; nothing was changed");
  const Book::Copied result = measured(target, tables());
  writing.commit();
  target.look_again();
  return result;
}

Book::Copied copy_into_new_file(Database& source, const std::filesystem::path& file, const std::vector<Migration>& steps) {
  std::error_code error;
  if (std::filesystem::exists(file, error)) throw Failure(file.string() + ": expected a name that is free: something is there already");
  const std::filesystem::path beside = file.string() + ".part-" + std::to_string(::getpid());  // another backup may go to the same name
  remove_file(beside);
  Book::Copied result;
  try {
    guarded(file.string(), [&] {
      const Address address = file_address(beside);
      Database copy{address, Database::Missing::create};
      migrate(copy, address.shown, steps);
      result = copied(source, copy);
      if (copy.whole("SELECT count(*) FROM pragma_integrity_check WHERE integrity_check <> 'ok'") != 0)
        throw Failure(file.string() + ": expected a sound copy: the database's own check finds faults");
      copy.empty_log();
      copy.run("PRAGMA journal_mode = DELETE");  // one file, fit for any disk
    });
    flush_to_disk(beside);
    // A name that was taken meanwhile stays another's.
    if (::link(beside.c_str(), file.c_str()) != 0)
      throw Failure(file.string() + ": expected a name that is free, on a disk that can be written");
    std::filesystem::remove(beside);
    flush_to_disk(file.has_parent_path() ? file.parent_path() : ".");
  } catch (...) {
    remove_file(beside);
    throw;
  }
  return result;
}

Book::Copied copy_from_file(const std::filesystem::path& file, Database& target, const std::filesystem::path& present_to) {
  // A copy of what the file holds, so that an older form can be brought to ours without touching what may be the only backup. SQLite itself
  // reads it: a book that was in use when it was copied has part of what it holds in its log.
  const PrivateFolder folder;
  const std::filesystem::path working = folder.path() / "copy.sqlite";
  Book::Copied result;
  guarded(file.string(), [&] {
    std::error_code error;
    if (!std::filesystem::is_regular_file(file, error)) throw Failure(file.string() + ": expected a backup: there is no file of that name");
    {
      Database source{file_address(file), Database::Missing::refuse};
      source.run("VACUUM INTO '" + working.string() + "'");
    }
    Address there = file_address(working);
    there.shown = file.string();
    Database backup{there, Database::Missing::refuse};
    migrate(backup, file.string(), migrations());
    const auto troubles = troubles_of(backup);
    if (!troubles.empty()) throw Failure(file.string() + ": expected a sound backup: " + troubles.front());
    const std::vector<Table> tables = tables_of(backup);
    Transaction writing{target, Transaction::For::writing};
    if (holds_anything(target) && !present_to.empty()) {
      std::filesystem::create_directories(present_to.parent_path());
      (void)copy_into_new_file(target, present_to, migrations());
      result.present_kept_in = present_to;
    }
    copy_rows(backup, target, tables);
    const auto measure = measured(target, tables);
    result.rows = measure.rows;
    result.digest = measure.digest;
    if (result.digest != measured(backup, tables).digest)
      throw Failure(file.string() + ": expected a copy equal to the backup: nothing was changed");
    writing.commit();
    target.look_again();
  });
  return result;
}

}  // namespace store
