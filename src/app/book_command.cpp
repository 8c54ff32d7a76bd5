#include "app/book_command.h"

#include <fmt/format.h>

#include <fmt/ranges.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

#include "app/csv.h"
#include "app/files.h"
#include "app/open_book.h"
#include "app/record_json.h"
#include "app/record_text.h"
#include "feeds/table_csv.h"
#include "store/free_name.h"
#include "units/text.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;

Outcome copied(const Common& common, const std::string& what, const store::Book::Copied& copy, Outcome outcome) {
  outcome.out = common.format == Format::json ? Json{{"rows", copy.rows}, {"digest", copy.digest}}.dump(2) + "\n"
                                              : fmt::format("{}: {} rows, digest {}\n", what, copy.rows, copy.digest);
  return outcome;
}

// The records of a client and of everything that leans on them, each once.
void gather(store::Book& book, const std::string& kind, const std::string& id, Json& out) {
  const auto record = book.find(kind, id);
  if (!record) return;
  for (const auto& there : out[kind])
    if (there["id"] == id) return;
  Json told = record_json(book.kind_with_own(kind), *record);
  told["history"] = Json::array();
  for (const auto& entry : book.history({.kind = kind, .id = id})) told["history"].push_back(history_json(entry));
  out[kind].push_back(std::move(told));
  for (const book::Kind& other : book::kinds())
    for (const book::Field& field : other.fields)
      if (field.type == book::FieldType::link && field.links_to == kind)
        for (const auto& leaning : book.list(other.name, {.equal = {{field.name, id}}, .with_removed = true}))
          gather(book, other.name, leaning.id, out);
}

units::Result<void> write_tables(store::Book& book, const std::filesystem::path& folder) {
  std::map<std::string, std::string> files;
  for (const store::Table& table : store::tables()) {
    std::string& text = files[table.name];
    for (const store::TableColumn& column : table.columns) text += (text.empty() ? "" : ",") + column.name;
    text += "\n";
  }
  book.each_row([&](const store::Table& table, const store::Cells& row) {
    std::string& text = files[table.name];
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string cell = row[i].value_or("");
      text += (i == 0 ? "" : ",") + (table.columns[i].type == store::TableColumn::Type::text ? csv::for_sheet(cell) : cell);
    }
    text += "\n";
  });
  for (const auto& [name, text] : files)
    if (const auto written = write_file(folder / (name + ".csv"), text); !written) return written;
  return {};
}

// Something in a file of an export is not as it was written. Thrown, since it runs within the store's transaction, which it must end.
struct BadFile {
  units::Fault fault;
};

// The rows of a table's file as the store takes them. Throws BadFile.
void read_rows(const std::filesystem::path& folder, const store::Table& table, const std::function<void(const store::Cells&)>& write) {
  const std::string name = table.name + ".csv";
  const auto content = read_file(folder / name, feeds::largest_table_bytes);
  if (!content) throw BadFile{content.error()};
  const auto file = feeds::read_table(name, *content);
  if (!file) throw BadFile{file.error()};
  std::vector<std::string> expected;
  for (const auto& column : table.columns) expected.push_back(column.name);
  if (file->columns != expected) throw BadFile{{name + ":1", "", "expected the header that `sapdraw book export` writes"}};
  std::set<std::string> keys;
  for (const feeds::TableRow& row : file->rows) {
    const std::string at = fmt::format("{}:{}", name, row.line);
    if (row.cells.size() != expected.size())
      throw BadFile{{at, fmt::format("{} cells", row.cells.size()), fmt::format("expected {}, as in the header", expected.size())}};
    if (row.cells.front().empty() || !keys.insert(row.cells.front()).second)
      throw BadFile{{at + ": " + expected.front(), units::for_message(row.cells.front()), "expected a value of its own in every row"}};
    store::Cells cells;
    for (std::size_t i = 0; i < expected.size(); ++i) {
      const auto& column = table.columns[i];
      const bool is_text = column.type == store::TableColumn::Type::text;
      std::string cell = is_text ? csv::from_sheet(row.cells[i]) : row.cells[i];
      if (cell.empty() && !column.empty_is_text) {
        cells.emplace_back();
        continue;
      }
      const auto number = is_text ? std::optional{0.0} : units::parse_number(cell);
      if (!number || (column.type == store::TableColumn::Type::whole && *number != std::floor(*number)))
        throw BadFile{{at + ": " + column.name, units::for_message(cell), "expected a number"}};
      if (is_text && (!units::is_utf8(cell) || cell.find('\0') != std::string::npos))
        throw BadFile{{at + ": " + column.name, units::for_message(cell), "expected UTF-8 without NUL bytes"}};
      cells.emplace_back(std::move(cell));
    }
    write(cells);
  }
}

}  // namespace

Outcome backup_command(const Common& common, const std::filesystem::path& file) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  const auto copy = book->backup(file);
  return copied(common, file.string() + ": the whole book, read back and compared", copy, std::move(outcome));
}

Outcome restore_command(const Common& common, const std::filesystem::path& file) {
  Outcome outcome;
  auto book = open_book(common, NoBook::make, outcome);
  if (!book) return outcome;
  std::string at = units::to_text(common.now);
  std::erase(at, ':');
  const auto before = store::free_name(kept_books(common) / ("before-restore-" + at + ".sqlite"));
  const auto copy = book->restore(file, before);
  if (!copy.present_kept_in.empty()) outcome.warn(fmt::format("the book as it was lies in {}", copy.present_kept_in.string()));
  return copied(common, book->shown() + ": restored", copy, std::move(outcome));
}

Outcome check_command(const Common& common) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  const auto troubles = book->check();
  for (const auto& line : troubles) outcome.err.push_back(book->shown() + ": " + line);
  if (!troubles.empty()) outcome.exit = Exit::store_failed;
  const auto entries = book->history({.last = 1});
  const long long changes = entries.empty() ? 0 : entries.back().number;
  if (common.format == Format::json)
    outcome.out = Json{{"sound", troubles.empty()}, {"changes", changes}, {"troubles", troubles}}.dump(2) + "\n";
  else if (troubles.empty())
    outcome.out = fmt::format("{}: sound. {} changes in history lead to what it holds\n", book->shown(), changes);
  return outcome;
}

Outcome export_book_command(const Common& common, const std::filesystem::path& folder) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  std::error_code error;
  if (std::filesystem::exists(folder, error) && !std::filesystem::is_empty(folder, error))
    return refused({folder.string(), "", "expected a folder that is new or empty"});
  const bool made = std::filesystem::create_directories(folder, error);
  // Clients' data: for the owner's eyes only.
  if (!error) std::filesystem::permissions(folder, std::filesystem::perms::owner_all, error);
  if (error) return refused({folder.string(), "", "expected a folder that can be made"});
  if (const auto written = write_tables(*book, folder); !written) {
    if (made) std::filesystem::remove_all(folder, error);
    return refused(written.error());
  }
  outcome.out = fmt::format("{}: {} tables; `sapdraw book import {}` gives the same book back\n", folder.string(), store::tables().size(),
                            folder.string());
  return outcome;
}

Outcome import_book_command(const Common& common, const std::filesystem::path& folder) {
  Outcome outcome;
  auto book = open_book(common, NoBook::make, outcome);
  if (!book) return outcome;
  if (!book->history({.last = 1}).empty()) return refused({"--book", book->shown(), "expected a book that holds nothing yet"});
  store::Book::Copied copy;
  try {
    copy = book->fill([&](const store::Table& table, const auto& write) { read_rows(folder, table, write); });
  } catch (const BadFile& bad) {
    return refused(bad.fault);
  }
  return copied(common, book->shown() + ": taken from " + folder.string(), copy, std::move(outcome));
}

Outcome history_command(const Common& common, const HistoryRequest& request) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  Json list = Json::array();
  for (const auto& entry : book->history({.last = request.last})) {
    if (common.format == Format::json)
      list.push_back(history_json(entry));
    else
      outcome.out += history_text(entry);
  }
  if (common.format == Format::json) outcome.out = Json{{"history", list}}.dump(2) + "\n";
  return outcome;
}

Outcome client_data_command(const Common& common, const std::string& client) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  if (!book->find("client", client)) return refused({"client", units::for_message(client), "expected the id of a client in the book"});
  Json all = Json::object();
  book->at_one_moment([&] { gather(*book, "client", client, all); });
  outcome.out = all.dump(2) + "\n";
  return outcome;
}

Outcome erase_client_command(const Common& common, const std::string& client, const std::string& why, bool for_good) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  const auto today = units::ZoneOffsets::utc().day_of(common.now);
  const auto erased = book->erase_client(client, today - std::chrono::days{common.models.office.keep_records_days}, author(common, why),
                                         for_good ? store::Mode::all_or_nothing : store::Mode::dry_run);
  if (!erased) return refused(erased.error());
  outcome.out = fmt::format(
      fmt::runtime(for_good ? "client {}: personal data taken out of {} records and {} entries of history\n"
                            : "client {}: personal data would go out of {} records and {} entries of history; --for-good does it\n"),
      client, erased->records, erased->history_entries);
  if (erased->kept_treatments > 0)
    outcome.warn(fmt::format("{} application records are younger than {} days and keep for whom they were made: the law asks for it",
                             erased->kept_treatments, common.models.office.keep_records_days));
  if (for_good && !erased->file_is_clean)
    outcome.warn(
        "the database's own files may hold old pages for a while: until every desk has closed the book, or the server has vacuumed");
  if (!erased->notes_to_look_at.empty())
    outcome.warn(fmt::format("notes are not searched for names; look at those of {}", fmt::join(erased->notes_to_look_at, ", ")));
  outcome.warn("backups made before still hold the data: delete them, or erase again after a restore");
  return outcome;
}

}  // namespace app
