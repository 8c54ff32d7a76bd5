#include "store/erase.h"

#include <algorithm>
#include <set>
#include <sstream>

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

// Sites that were the client's once and are another's now: what stood there in the client's time is in their history only.
std::vector<std::string> former_sites(Database& database, const std::string& client) {
  std::vector<std::string> ids;
  each_entry(database, "WHERE kind = :kind", "number", {{"kind", "site"}}, [&](const book::HistoryEntry& entry) {
    const auto link = entry.changes.find("client");
    if (link != entry.changes.end() && link->second.was == client && link->second.now != client &&
        std::ranges::find(ids, entry.id) == ids.end())
      ids.push_back(entry.id);
  });
  return ids;
}

// What of a record is the client's. Of an application only for whom and where it was: who applied it is the law's.
Kind personal_part(const Kind& kind) {
  Kind part = kind;
  if (kind.name == "treatment")
    std::erase_if(part.fields, [](const book::Field& field) {
      return field.name != "for_name" && field.name != "for_address" && field.name != "location" && !field.name.starts_with(own_prefix);
    });
  return part;
}

// The same of a message to a crew: its number is the crew's.
Kind named_part(Kind message) {
  std::erase_if(message.fields, [](const book::Field& field) { return field.name == "send_to"; });
  return message;
}

// Messages to crews that name the client's places among others'.
std::vector<Record> naming(Database& database, const std::set<std::string>& jobs) {
  std::vector<Record> all;
  const Kind& kind = book::kind("message");
  Query{database, "SELECT " + columns_of(kind) + " FROM message WHERE jobs IS NOT NULL"}.each([&](const soci::row& row) {
    Record record = record_of(kind, row);
    std::istringstream lines{record.text("jobs")};
    for (std::string job; std::getline(lines, job);)
      if (jobs.contains(job)) {
        all.push_back(std::move(record));
        return;
      }
  });
  return all;
}

class Eraser {
 public:
  Eraser(Database& database, Editor& editor) : database_(database), editor_(editor) {}

  void erase(const Kind& kind, const Record& record) {
    erased_.history_entries += clean_history(database_, kind, record.id);
    Record after = without_person(kind, record);
    if (kind.name == "message" && record.text("state") == "queued") {
      after.fields["state"] = "cancelled";
      after.fields["reason"] = "what it said was erased with its client";
    }
    if (after.fields == record.fields) return;
    editor_.overwrite(unnamed(kind, record), after, "erase");
    ++erased_.records;
  }

  // History loses the person, the record keeps what it says now: it is another's.
  void erase_past(const Kind& kind, const Record& record) {
    const std::size_t cleaned = clean_history(database_, kind, record.id);
    erased_.history_entries += cleaned;
    if (cleaned > 0) editor_.overwrite(unnamed(kind, record), record, "erase");
  }

  void keep_treatment() { ++erased_.kept_treatments; }
  void look_at(const Record& record) {
    if (!record.text("note").empty()) erased_.notes_to_look_at.push_back(record.kind + " " + record.id);
  }
  [[nodiscard]] Book::Erased& erased() { return erased_; }

 private:
  // The record as cleaned history leads to it: what was there must not enter history again.
  static Record unnamed(const Kind& kind, Record record) {
    for (const book::Field& field : kind.fields) {
      const auto found = field.personal ? record.fields.find(field.name) : record.fields.end();
      if (found == record.fields.end()) continue;
      if (field.required)
        found->second = "erased";
      else
        record.fields.erase(found);
    }
    return record;
  }

  Database& database_;
  Editor& editor_;
  Book::Erased erased_;
};

}  // namespace

units::Result<Book::Erased> erase_person(Database& database, Editor& editor, const std::string& client, units::LocalDay keep_from) {
  if (find_record(database, book::kind("client"), client).version == 0)
    return units::fault("client", client, "expected the id of a client in the book");
  const std::string sites = "(SELECT id FROM site WHERE client = :client)", trees = "(SELECT id FROM tree WHERE site IN " + sites + ")",
                    jobs = "(SELECT id FROM job WHERE tree IN " + trees + ")";
  const auto own = own_fields_of(database);
  const std::string keep = units::to_text(keep_from);
  Eraser eraser{database, editor};
  std::set<std::string> jobs_of_client;
  for (const auto& [name, condition] : {std::pair<std::string, std::string>{"client", "id = :client"},
                                        {"site", "client = :client"},
                                        {"tree", "site IN " + sites},
                                        {"job", "tree IN " + trees},
                                        {"message", "client = :client OR job IN " + jobs},
                                        {"treatment", "for_client = :client OR (for_client IS NULL AND tree IN " + trees + ")"}}) {
    const Kind kind = personal_part(with_own(book::kind(name), own));
    for (const Record& record : picked(database, book::kind(name), condition, client)) {
      const bool kept = name == "treatment" && record.text("day") >= keep && !record.text("for_name").empty();
      if (kept)
        eraser.keep_treatment();
      else
        eraser.erase(kind, record);
      if (name == "tree" || name == "job" || name == "treatment") eraser.look_at(record);
      if (name == "job") jobs_of_client.insert(record.id);
    }
  }
  for (const Record& record : naming(database, jobs_of_client)) eraser.erase(named_part(with_own(book::kind("message"), own)), record);
  const Kind site = with_own(book::kind("site"), own);
  for (const std::string& id : former_sites(database, client)) {
    const Record record = find_record(database, book::kind("site"), id);
    if (record.text("client") != client) eraser.erase_past(site, record);
  }
  return std::move(eraser.erased());
}

}  // namespace store
