#include "store/book.h"

#include <algorithm>

#include "store/bulk_copy.h"
#include "store/editor.h"
#include "store/erase.h"
#include "store/free_name.h"
#include "store/migrations.h"
#include "store/verify.h"

namespace store {

using book::Kind;
using book::Record;

struct Book::Inside {
  Address address;
  std::unique_ptr<Database> database = {};
  std::filesystem::path kept_before_migrating = {};
  bool is_new = false;

  // Result of `work`, whatever of the database's errors it throws told as a Failure.
  template <class Work>
  auto with_database(Work work) {
    std::optional<decltype(work(*database))> result;
    guarded(address.shown, [&] { result.emplace(work(*database)); });
    return std::move(*result);
  }
};

namespace {

Applied carry_out_all(Database& database, const std::vector<book::Edit>& edits, const book::Author& author, Mode mode) {
  Applied applied;
  Transaction transaction{database, Transaction::For::writing};
  Editor editor{database, author};
  for (std::size_t first = 0; first < edits.size();) {
    std::vector<const book::Edit*> together{&edits[first]};
    std::size_t next = first + 1;
    while (edits[first].group != 0 && next < edits.size() && edits[next].group == edits[first].group) together.push_back(&edits[next++]);
    auto done = editor.carry_out_together(together);
    if (done) {
      for (Written& written : *done) applied.written.push_back(std::move(written));
    } else {
      done.error().edit = first;
      applied.refusals.push_back(std::move(done.error()));
    }
    first = next;
  }
  if (mode == Mode::dry_run || (mode == Mode::all_or_nothing && !applied.refusals.empty())) return applied;
  editor.finish();
  transaction.commit();
  if (edits.size() > 1000) database.look_again();
  applied.kept = true;
  return applied;
}

LastTreated treated_of(const soci::row& row) {
  LastTreated tree{row.get<std::string>(0), text_of(row, 1), text_of(row, 2), text_of(row, 3),
                   row.get<double>(4),      text_of(row, 5), std::nullopt};
  if (row.get_indicator(6) != soci::i_null) tree.keeps_seasons = static_cast<int>(row.get<long long>(6));
  return tree;
}

constexpr const char* treated_columns = "SELECT t.id, t.name, t.species, t.site, s.lat, l.last_day, t.keeps_seasons ";
constexpr const char* last_by_tree = "SELECT tree, max(day) AS last_day FROM treatment WHERE outcome = 'done' AND removed = 0 ";
constexpr const char* standing = " t.removed = 0 AND t.gone_on IS NULL ";

// Trees with their last treatment, from `sql`'s rows.
std::vector<LastTreated> treated(Query& query) {
  std::vector<LastTreated> all;
  query.each([&](const soci::row& row) { all.push_back(treated_of(row)); });
  return all;
}

std::string where_of(const Database& database, const Kind& kind, const Filter& filter) {
  std::string where = filter.with_removed ? "WHERE 1 = 1" : "WHERE removed = 0";
  for (std::size_t i = 0; i < filter.equal.size(); ++i) {
    const book::Field* field = kind.field(filter.equal[i].first);
    const bool numeric = field != nullptr && (field->type == book::FieldType::number || field->type == book::FieldType::whole);
    const std::string column = field == nullptr ? "id" : field->name, value = ":equal" + std::to_string(i);
    if (filter.equal[i].second.empty())
      where += " AND " + column + " IS NULL";
    else
      where += " AND " + column + " = " + (numeric ? "CAST(" + value + " AS DOUBLE PRECISION)" : value);
  }
  if (filter.holds && kind.field(filter.holds->first) != nullptr)
    where += " AND lower(" + filter.holds->first + database.by_bytes() + ") LIKE :holds ESCAPE '!'";
  if (!filter.between_from.empty()) where += " AND " + filter.between_field + " >= :from_text";
  if (!filter.between_until.empty()) where += " AND " + filter.between_field + " <= :until_text";
  return where;
}

// `text` for LIKE: its own % and _ taken literally.
std::string pattern(const std::string& text) {
  std::string out = "%";
  for (char c : text) {
    if (c == '%' || c == '_' || c == '!') out += '!';
    out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out + "%";
}

std::vector<Record> listed(Database& database, const Kind& kind, const Filter& filter) {
  std::string sql =
      "SELECT " + columns_of(kind) + " FROM " + kind.name + " " + where_of(database, kind, filter) + " ORDER BY id" + database.by_bytes();
  if (filter.limit > 0) sql += " LIMIT " + std::to_string(filter.limit);
  Query query{database, sql};
  for (std::size_t i = 0; i < filter.equal.size(); ++i)
    if (!filter.equal[i].second.empty()) query.bind("equal" + std::to_string(i), filter.equal[i].second);
  if (filter.holds && kind.field(filter.holds->first) != nullptr) query.bind("holds", pattern(filter.holds->second));
  if (!filter.between_from.empty()) query.bind("from_text", filter.between_from);
  if (!filter.between_until.empty()) query.bind("until_text", filter.between_until);
  std::vector<Record> all;
  query.each([&](const soci::row& row) { all.push_back(record_of(kind, row)); });
  return all;
}

}  // namespace

Book::Book(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Book::Book(Book&&) noexcept = default;
Book& Book::operator=(Book&&) noexcept = default;
Book::~Book() = default;

Book Book::open(const Address& address, Missing missing, const std::filesystem::path& backups, units::UtcTime now) {
  return open(address, missing, backups, now, migrations());
}

Book Book::open(const Address& address, Missing missing, const std::filesystem::path& backups, units::UtcTime now,
                const std::vector<Migration>& steps) {
  auto inside = std::make_unique<Inside>(Inside{address});
  guarded(address.shown, [&] {
    const auto how = missing == Missing::create ? Database::Missing::create : Database::Missing::refuse;
    inside->database = std::make_unique<Database>(address, how);
    const int present = schema_number(*inside->database);
    if (present == 0 && missing == Missing::refuse)
      throw Failure(address.shown +
                    ": expected a book: this database has none yet; the first `sapdraw site add` or `tree import` makes it");
    if (present > 0 && present < steps.back().number) {
      std::filesystem::create_directories(backups);
      std::string at = units::to_text(now);
      std::erase(at, ':');
      inside->kept_before_migrating = free_name(backups / ("form-" + std::to_string(present) + "-" + at + ".sqlite"));
      const std::vector<Migration> old{steps.begin(), std::ranges::find(steps, present + 1, &Migration::number)};
      copy_into_new_file(*inside->database, inside->kept_before_migrating, old);
    }
    inside->is_new = present == 0;
    if (!is_current(*inside->database, steps)) migrate(*inside->database, address.shown, steps);
  });
  return Book{std::move(inside)};
}

const std::string& Book::shown() const { return inside_->address.shown; }
bool Book::is_new() const { return inside_->is_new; }

void Book::at_one_moment(const std::function<void()>& work) {
  guarded(inside_->address.shown, [&] {
    Transaction snapshot{*inside_->database, Transaction::For::reading};
    work();
  });
}

const std::filesystem::path& Book::kept_before_migrating() const { return inside_->kept_before_migrating; }

Applied Book::apply(const std::vector<book::Edit>& edits, const book::Author& author, Mode mode) {
  return inside_->with_database([&](Database& database) { return carry_out_all(database, edits, author, mode); });
}

std::optional<Record> Book::find(const std::string& kind, const std::string& id) {
  return inside_->with_database([&](Database& database) -> std::optional<Record> {
    Record found = find_record(database, book::kind(kind), id);
    return found.version == 0 ? std::nullopt : std::optional{std::move(found)};
  });
}

std::vector<Record> Book::list(const std::string& kind, const Filter& filter) {
  return inside_->with_database([&](Database& database) { return listed(database, book::kind(kind), filter); });
}

long long Book::count(const std::string& kind, bool with_removed) {
  return inside_->with_database([&](Database& database) {
    return database.whole("SELECT count(*) FROM " + book::kind(kind).name + (with_removed ? "" : " WHERE removed = 0"));
  });
}

Kind Book::kind_with_own(const std::string& kind) {
  return inside_->with_database([&](Database& database) { return with_own(book::kind(kind), own_fields_of(database)); });
}

std::vector<book::HistoryEntry> Book::history(const HistoryFilter& filter) {
  return inside_->with_database([&](Database& database) {
    std::vector<std::pair<std::string, std::string>> bound;
    std::string where = "WHERE number >= " + std::to_string(filter.from);
    if (!filter.kind.empty()) {
      where += " AND kind = :kind";
      bound.emplace_back("kind", filter.kind);
    }
    if (!filter.id.empty()) {
      where += " AND record = :id";
      bound.emplace_back("id", filter.id);
    }
    std::vector<book::HistoryEntry> entries;
    const std::string order = filter.last == 0 ? "number" : "number DESC LIMIT " + std::to_string(filter.last);
    each_entry(database, where, order, bound, [&](const book::HistoryEntry& entry) { entries.push_back(entry); });
    if (filter.last != 0) std::ranges::reverse(entries);
    return entries;
  });
}

std::vector<LastTreated> Book::longest_treated(std::size_t limit) {
  return inside_->with_database([&](Database& database) {
    Transaction snapshot{database, Transaction::For::reading};
    // Sorting before joining keeps a book of 100,000 trees quick; a few of the longest treated may be felled, hence the room. Each
    // hemisphere has its own seasons, so the order of days is the order of due days only within one.
    const auto of_the_longest = [&](const char* hemisphere, std::size_t room) {
      Query query{database, std::string{treated_columns} + "FROM (" + last_by_tree + "GROUP BY tree ORDER BY last_day, tree" +
                                (room == 0 ? "" : " LIMIT " + std::to_string(room)) +
                                ") l JOIN tree t ON t.id = l.tree JOIN site s ON s.id = t.site WHERE t.keeps_seasons IS NULL AND s.lat " +
                                hemisphere + " AND" + standing + "ORDER BY l.last_day, t.id" +
                                (limit == 0 ? "" : " LIMIT " + std::to_string(limit))};
      return treated(query);
    };
    std::vector<LastTreated> all;
    for (const char* hemisphere : {"< 0", ">= 0"}) {
      if (database.whole(std::string{"SELECT count(*) FROM site WHERE lat "} + hemisphere) == 0) continue;
      auto some = of_the_longest(hemisphere, limit == 0 ? 0 : 4 * limit + 200);
      if (some.size() < limit) some = of_the_longest(hemisphere, 0);
      all.insert(all.end(), some.begin(), some.end());
    }
    Query with_own_term{database,
                        std::string{treated_columns} + "FROM tree t JOIN site s ON s.id = t.site JOIN (" + last_by_tree +
                            "AND tree IN (SELECT id FROM tree WHERE keeps_seasons IS NOT NULL) GROUP BY tree) l ON l.tree = t.id WHERE" +
                            standing + "ORDER BY l.last_day, t.id"};
    const auto more = treated(with_own_term);
    all.insert(all.end(), more.begin(), more.end());
    return all;
  });
}

long long Book::never_treated() {
  return inside_->with_database([&](Database& database) {
    Transaction snapshot{database, Transaction::For::reading};
    // Standing trees, less those treated, who may be felled since: each count by an index of its own.
    const long long stand = database.whole(std::string{"SELECT count(*) FROM tree t WHERE"} + standing),
                    treated = database.whole(
                        "SELECT count(*) FROM (SELECT DISTINCT tree FROM treatment WHERE outcome = 'done' AND removed = 0) l"),
                    treated_and_gone = database.whole(
                        "SELECT count(*) FROM tree t WHERE (t.removed = 1 OR t.gone_on IS NOT NULL) AND EXISTS "
                        "(SELECT 1 FROM treatment r WHERE r.outcome = 'done' AND r.removed = 0 AND r.tree = t.id)");
    return stand - (treated - treated_and_gone);
  });
}

std::vector<LastTreated> Book::cannot_wait(const std::string& since) {
  return inside_->with_database([&](Database& database) {
    const std::string last = "(SELECT max(day) FROM treatment WHERE outcome = 'done' AND removed = 0 AND tree = t.id)";
    Query query{database,
                "SELECT t.id, t.name, t.species, t.site, s.lat, " + last +
                    ", t.keeps_seasons FROM tree t JOIN site s ON s.id = t.site WHERE" + standing +
                    "AND t.id IN (SELECT id FROM tree WHERE urgent = 'yes' UNION SELECT n.id FROM tree n JOIN site d ON d.id = n.site "
                    "WHERE d.disease_near_on >= :since) ORDER BY t.id"};
    query.bind("since", since);
    return treated(query);
  });
}

std::vector<Record> Book::latest_diameters(const std::string& tree) {
  return inside_->with_database([&](Database& database) {
    const Kind& kind = book::kind("diameter");
    const std::string one = tree.empty() ? "" : " AND tree = :tree";
    Query query{database,
                "SELECT " + columns_of(kind) + " FROM diameter WHERE removed = 0" + one + " ORDER BY tree, measured_on, length(id), id"};
    if (!tree.empty()) query.bind("tree", tree);
    std::vector<Record> latest;
    query.each([&](const soci::row& row) {
      Record record = record_of(kind, row);
      if (!latest.empty() && latest.back().text("tree") == record.text("tree"))
        latest.back() = std::move(record);
      else
        latest.push_back(std::move(record));
    });
    return latest;
  });
}

units::Result<Book::Erased> Book::erase_client(const std::string& client, units::LocalDay keep_from, const book::Author& author,
                                               Mode mode) {
  return inside_->with_database([&](Database& database) {
    Transaction transaction{database, Transaction::For::writing};
    Editor editor{database, author};
    auto erased = erase_person(database, editor, client, keep_from);
    if (!erased || mode == Mode::dry_run) return erased;
    editor.finish();
    transaction.commit();
    erased->file_is_clean = database.is_sqlite() && database.empty_log();
    return erased;
  });
}

Book::Copied Book::backup(const std::filesystem::path& file) {
  return inside_->with_database([&](Database& database) { return copy_into_new_file(database, file, migrations()); });
}

Book::Copied Book::restore(const std::filesystem::path& file, const std::filesystem::path& present_to) {
  return inside_->with_database([&](Database& database) { return copy_from_file(file, database, present_to); });
}

void Book::each_row(const std::function<void(const Table&, const Cells&)>& take) {
  guarded(inside_->address.shown, [&] {
    Transaction snapshot{*inside_->database, Transaction::For::reading};
    for (const Table& table : tables()) store::each_row(*inside_->database, table, [&](const Cells& row) { take(table, row); });
  });
}

Book::Copied Book::fill(const RowSource& rows) {
  return inside_->with_database([&](Database& database) { return store::fill(database, rows); });
}

std::vector<std::string> Book::check() {
  return inside_->with_database([&](Database& database) { return troubles_of(database); });
}

}  // namespace store
