#include "store/erase.h"

namespace store {
namespace {

using book::Kind;
using book::Record;

// Records of `kind` that `condition` (with :client in it) picks.
std::vector<Record> picked(Database& database, const Kind& kind, const std::string& condition, const std::string& client) {
  std::vector<Record> all;
  Query{database, "SELECT " + columns_of(kind) + " FROM " + kind.name + " WHERE " + condition}
      .bind("client", client)
      .each([&](const soci::row& row) { all.push_back(record_of(kind, row)); });
  return all;
}

// The record without its personal fields; a required one says that it was erased.
Record without_person(const Kind& kind, const Record& record) {
  Record after = record;
  for (const book::Field& field : kind.fields) {
    if (!field.personal || record.text(field.name).empty()) continue;
    if (field.required)
      after.fields[field.name] = "erased";
    else
      after.fields.erase(field.name);
  }
  return after;
}

// Takes the personal values out of what history says of a record. The entries themselves stay: that something was changed, by whom and
// when.
std::size_t clean_history(Database& database, const Kind& kind, const std::string& id) {
  struct Clean {
    long long number;
    std::string changes;
  };
  std::vector<Clean> cleaned;
  each_entry(database, "WHERE kind = :kind AND record = :id", "number", {{"kind", kind.name}, {"id", id}},
             [&](const book::HistoryEntry& entry) {
               auto changes = entry.changes;
               bool touched = false;
               for (auto& [name, changed] : changes) {
                 const book::Field* field = kind.field(name);
                 if (field == nullptr || !field->personal) continue;
                 touched = true;
                 const auto erased = field->required ? std::optional<std::string>{"erased"} : std::nullopt;
                 changed = {changed.was ? erased : std::nullopt, changed.now ? erased : std::nullopt};
               }
               if (touched) cleaned.push_back({entry.number, changes_json(changes)});
             });
  for (const Clean& clean : cleaned)
    database.session() << "UPDATE history SET changes = :changes WHERE number = :number", soci::use(clean.changes, "changes"),
        soci::use(clean.number, "number");
  return cleaned.size();
}

}  // namespace

units::Result<Book::Erased> erase_person(Database& database, Editor& editor, const std::string& client, units::LocalDay keep_from) {
  if (find_record(database, book::kind("client"), client).version == 0)
    return units::fault("client", client, "expected the id of a client in the book");
  const std::string sites = "(SELECT id FROM site WHERE client = :client)", trees = "(SELECT id FROM tree WHERE site IN " + sites + ")",
                    jobs = "(SELECT id FROM job WHERE tree IN " + trees + ")";
  Book::Erased erased;
  const std::string keep = units::to_text(keep_from);
  for (const auto& [name, condition] : {std::pair<std::string, std::string>{"client", "id = :client"},
                                        {"site", "client = :client"},
                                        {"message", "client = :client OR job IN " + jobs},
                                        {"treatment", "tree IN " + trees}}) {
    const Kind& whole = book::kind(name);
    Kind kind = whole;
    // Of an application record only for whom it was is the client's; who applied it is the law's.
    if (name == "treatment")
      std::erase_if(kind.fields, [](const book::Field& field) { return field.name != "for_name" && field.name != "for_address"; });
    for (const Record& record : picked(database, whole, condition, client)) {
      if (name == "treatment" && record.text("day") >= keep) {
        erased.kept_treatments += record.text("for_name").empty() && record.text("for_address").empty() ? 0U : 1U;
        continue;
      }
      erased.history_entries += clean_history(database, kind, record.id);
      const Record after = without_person(kind, record);
      if (after.fields == record.fields) continue;
      Record unnamed = record;  // what was there must not enter history again
      for (const book::Field& field : kind.fields)
        if (field.personal && unnamed.fields.contains(field.name)) unnamed.fields[field.name] = field.required ? "erased" : "";
      for (auto field = unnamed.fields.begin(); field != unnamed.fields.end();)
        field = field->second.empty() ? unnamed.fields.erase(field) : std::next(field);
      editor.overwrite(unnamed, after, "erase");
      ++erased.records;
    }
  }
  return erased;
}

}  // namespace store
