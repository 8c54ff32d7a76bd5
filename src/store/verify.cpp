#include "store/verify.h"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "book/sense.h"
#include "store/editor.h"
#include "store/history.h"
#include "store/migrations.h"
#include "store/query.h"

namespace store {
namespace {

using book::Kind;
using book::Record;

constexpr std::array<std::string_view, 5> words{"add", "change", "remove", "bring_back", "erase"};

class Verifier {
 public:
  explicit Verifier(Database& database) : database_(database) {}

  std::vector<std::string> troubles() {
    numbers_without_gap();
    for (const Kind& kind : book::kinds()) {
      try {
        values(kind);
        links(kind);
        replay(kind);
      } catch (const nlohmann::json::exception&) {
        tell(kind.plural + ": expected JSON in every record's own fields and history: some cell is damaged");
      }
    }
    return std::move(lines_);
  }

  void own_check() {
    Query{database_, "SELECT integrity_check FROM pragma_integrity_check(20)"}.each([&](const soci::row& row) {
      if (const std::string said = row.get<std::string>(0); said != "ok") tell("the database's own check: " + said);
    });
  }

 private:
  void tell(std::string line) {
    if (lines_.size() < 100) lines_.push_back(std::move(line));
  }

  void numbers_without_gap() {
    const long long entries = database_.whole("SELECT count(*) FROM history"),
                    last = database_.whole("SELECT coalesce(max(number), 0) FROM history"),
                    next = database_.whole("SELECT coalesce(max(next), 0) FROM counter WHERE name = 'history'");
    if (entries != last || next != last + 1)
      tell("history: expected entries 1 to " + std::to_string(next - 1) + ": there are " + std::to_string(entries) + ", the last is " +
           std::to_string(last));
  }

  void values(const Kind& kind) {
    const Kind& plain = kind;
    Query{database_, "SELECT " + columns_of(plain) + " FROM " + plain.name}.each([&](const soci::row& row) {
      const Record record = record_of(plain, row);
      for (const auto& [name, value] : record.fields) {
        // An own field's description may have changed since its values were written: they are texts here.
        static const book::Field own = book::note_field("own field", "");
        const book::Field* field = name.starts_with(own_prefix) ? &own : kind.field(name);
        if (field == nullptr) {
          tell(plain.name + " " + record.id + ": " + name + ": expected a field of a " + plain.name);
          continue;
        }
        const auto canonical = book::canonical(*field, value);
        if (!canonical)
          tell(plain.name + " " + record.id + ": " + canonical.error().line());
        else if (*canonical != value)
          tell(plain.name + " " + record.id + ": " + name + ": expected its text as the book writes it");
      }
      for (const book::Field& field : plain.fields)
        if (field.required && record.text(field.name).empty())
          tell(plain.name + " " + record.id + ": " + field.name + ": expected a value");
    });
  }

  void links(const Kind& kind) {
    for (const book::Field& field : kind.fields) {
      if (field.type != book::FieldType::link) continue;
      Query{database_, "SELECT a.id, a." + field.name + " FROM " + kind.name + " a LEFT JOIN " + field.links_to + " b ON b.id = a." +
                           field.name + " WHERE a." + field.name + " IS NOT NULL AND b.id IS NULL"}
          .each([&](const soci::row& row) {
            tell(kind.name + " " + row.get<std::string>(0) + ": " + field.name + ": '" + row.get<std::string>(1) + "': expected a " +
                 field.links_to + " in the book");
          });
    }
  }

  // History tells how each record came to be what it is; the last word of both must be the same.
  void replay(const Kind& kind) {
    const std::string bytewise = database_.by_bytes();
    std::vector<Print> told = told_by_history(kind, "record" + bytewise + ", number");
    std::size_t at = 0;
    const auto missing = [&](const Print& print) {
      tell(kind.name + " " + print.id + ": expected a record: history knows it, the table does not");
    };
    Query{database_, "SELECT " + columns_of(kind) + " FROM " + kind.name + " ORDER BY id" + bytewise}.each([&](const soci::row& row) {
      const Record present = record_of(kind, row);
      for (; at < told.size() && told[at].id < present.id; ++at) missing(told[at]);
      if (at == told.size() || told[at].id != present.id)
        tell(kind.name + " " + present.id + ": expected a history: the record has none");
      else if (told[at++].print != print_of(present))
        tell(kind.name + " " + present.id + ": expected what history leads to: the record was changed past it");
    });
    for (; at < told.size(); ++at) missing(told[at]);
  }

  struct Print {
    std::string id, print;
  };

  static std::string print_of(const Record& record) {
    std::string all = std::to_string(record.version) + (record.removed ? "-" : "+");
    for (const auto& [field, value] : record.fields) all += field + '\0' + value + '\0';
    return fingerprint(all);
  }

  std::vector<Print> told_by_history(const Kind& kind, const std::string& order) {
    std::vector<Print> told;
    Record built{kind.name, ""};
    const auto close = [&] {
      if (!built.id.empty()) told.push_back({built.id, print_of(built)});
    };
    each_entry(database_, "WHERE kind = :kind", order, {{"kind", kind.name}}, [&](const book::HistoryEntry& entry) {
      if (entry.id != built.id) {
        close();
        built = {kind.name, entry.id};
      }
      if (entry.version != ++built.version)
        tell(kind.name + " " + entry.id + ": expected version " + std::to_string(built.version) + " in history, found " +
             std::to_string(entry.version));
      built.version = entry.version;
      if (std::ranges::find(words, entry.what) == words.end() || entry.author.when == units::UtcTime{})
        tell("history " + std::to_string(entry.number) + ": expected what was done and when");
      if (entry.what == "remove") built.removed = true;
      if (entry.what == "bring_back") built.removed = false;
      for (const auto& [field, changed] : entry.changes)
        if (changed.now)
          built.fields[field] = *changed.now;
        else
          built.fields.erase(field);
    });
    close();
    return told;
  }

  Database& database_;

  std::vector<std::string> lines_;
};

}  // namespace

std::vector<std::string> troubles_of(Database& database) {
  Transaction snapshot{database, Transaction::For::reading};
  Verifier verifier{database};
  if (database.is_sqlite()) verifier.own_check();
  return verifier.troubles();
}

std::vector<std::string> troubles_within(Database& database) { return Verifier{database}.troubles(); }

}  // namespace store
