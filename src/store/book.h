// The book on disk: SQLite or PostgreSQL, one schema, one code path. Every change is a transaction with who, when and what; nothing is ever
// lost or overwritten in silence. One object a thread. Everything here throws store::Failure where the database itself fails.
#pragma once
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "book/kind.h"
#include "book/record.h"
#include "store/address.h"
#include "store/failure.h"
#include "units/fault.h"

namespace store {

class Database;
struct Migration;

// What became of an edit.
struct Written {
  book::Record before;  // version 0: added
  book::Record after;
  bool unchanged = false;  // it asked for what stood there already
};

struct Refusal {
  std::size_t edit = 0;  // index of the edit
  std::vector<units::Fault> faults;
  std::optional<book::Conflict> conflict;  // of versions; then there are no faults
};

enum class Mode { all_or_nothing, take_good, dry_run };

struct Applied {
  bool kept = false;
  std::vector<Written> written;   // what was written, or would have been
  std::vector<Refusal> refusals;  // in the order of the edits
};

struct Filter {
  std::vector<std::pair<std::string, std::string>> equal = {};    // field (or "id") and its canonical text; empty: nothing stands there
  std::optional<std::pair<std::string, std::string>> holds = {};  // field, and a text that stands in it, in any case of ASCII letters
  std::string between_field = {};                                 // a day or instant...
  std::string between_from = {}, between_until = {};              // ...as text; empty: open
  bool with_removed = false;
  std::size_t limit = 0;  // 0: all
};

// A tree that was treated in full, for the due list.
struct LastTreated {
  std::string tree, name, species, site;
  double latitude_deg = 0.0;
  std::string day;                   // of the last treatment that was done
  std::optional<int> keeps_seasons;  // of its own
};

struct HistoryFilter {
  std::string kind = {}, id = {};  // empty: all
  std::int64_t from = 1;           // number of the first entry
  std::size_t last = 0;            // only the last of them, 0: all
};

// The tables below the kinds, for writing a whole book out and reading it in.
struct TableColumn {
  std::string name;
  enum class Type { text, whole, number } type;
  bool empty_is_text = false;  // an empty text stands there as such; elsewhere nothing does
};
struct Table {
  std::string name;
  std::vector<TableColumn> columns;
};
using Cells = std::vector<std::optional<std::string>>;
using RowSource = std::function<void(const Table& table, const std::function<void(const Cells&)>& write)>;

// Those linked to before those that link.
[[nodiscard]] const std::vector<Table>& tables();

class Book {
 public:
  enum class Missing { refuse, create };

  // Opens, and brings an older book to this program's form after a backup into `backups`. Creates a new one where `missing` says so.
  static Book open(const Address& address, Missing missing, const std::filesystem::path& backups, units::UtcTime now);
  // The same with other steps than store/migrations.h has: for tests of migrating.
  static Book open(const Address& address, Missing missing, const std::filesystem::path& backups, units::UtcTime now,
                   const std::vector<Migration>& steps);
  Book(Book&&) noexcept;
  Book& operator=(Book&&) noexcept;
  ~Book();

  [[nodiscard]] const std::string& shown() const;  // its address, without password
  [[nodiscard]] bool is_new() const;               // opening it made it
  // Everything that `work` reads of this book is of one moment.
  void at_one_moment(const std::function<void()>& work);
  // Where an older book was kept before it was brought to this form; empty: it was not.
  [[nodiscard]] const std::filesystem::path& kept_before_migrating() const;

  // In order, in one transaction. Nothing is kept in a dry run, nor of all_or_nothing where one edit is refused.
  [[nodiscard]] Applied apply(const std::vector<book::Edit>& edits, const book::Author& author, Mode mode);

  // Removed records are found too; empty where there is none.
  [[nodiscard]] std::optional<book::Record> find(const std::string& kind, const std::string& id);
  // In the order of ids.
  [[nodiscard]] std::vector<book::Record> list(const std::string& kind, const Filter& filter);
  [[nodiscard]] long long count(const std::string& kind, bool with_removed);
  // A kind's fields with the owner's own behind them.
  [[nodiscard]] book::Kind kind_with_own(const std::string& kind);
  [[nodiscard]] std::vector<book::HistoryEntry> history(const HistoryFilter& filter);

  // Trees that stand and were treated in full: at most `limit` (0: all) of the longest treated, and behind them all with a term of their
  // own.
  [[nodiscard]] std::vector<LastTreated> longest_treated(std::size_t limit);
  // Trees that stand and were never treated in full: how many; and those that cannot wait: urgent, or a diseased tree nearby since `since`.
  [[nodiscard]] long long never_treated();
  [[nodiscard]] std::vector<LastTreated> cannot_wait(const std::string& since);
  // Diameters of all trees, or of one: the latest of each.
  [[nodiscard]] std::vector<book::Record> latest_diameters(const std::string& tree);

  // Takes a client's personal data out of every record and out of history. Records of applications on `keep_from` and later keep for whom
  // they were made: the law asks for them. A dry run tells what would go. Fault: no such client.
  struct Erased {
    std::size_t records = 0, history_entries = 0, kept_treatments = 0;
    bool file_is_clean = true;                  // false: the database still holds old pages, which go with time
    std::vector<std::string> notes_to_look_at;  // records of the client's trees with free text, which may name somebody
  };
  [[nodiscard]] units::Result<Erased> erase_client(const std::string& client, units::LocalDay keep_from, const book::Author& author,
                                                   Mode mode = Mode::all_or_nothing);

  // A copy of the whole book as it is at this moment, as a SQLite book, read back and compared. Throws Failure where `file` exists.
  struct Copied {
    long long rows = 0;
    std::string digest;                          // of all rows, the same for the same content in either database
    std::filesystem::path present_kept_in = {};  // restore: where what was there went; empty: there was nothing
  };
  Copied backup(const std::filesystem::path& file);
  // Makes this book what `file` holds, in one transaction; what it holds itself is kept as a backup at `present_to` under the same lock.
  Copied restore(const std::filesystem::path& file, const std::filesystem::path& present_to);

  // Every row of every table as it is at this moment, in the order of tables().
  void each_row(const std::function<void(const Table&, const Cells&)>& take);
  // Makes this book, which must hold nothing yet, what `rows` gives, in one transaction, if that is a sound book.
  Copied fill(const RowSource& rows);

  // One line for everything that is not as it should be; none: sound. The database's own check, every value against its field, every link,
  // history without gaps and leading to what the tables hold.
  [[nodiscard]] std::vector<std::string> check();

 private:
  struct Inside;
  explicit Book(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

}  // namespace store
