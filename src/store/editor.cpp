#include "store/editor.h"

#include <algorithm>
#include <array>

#include "book/sense.h"
#include "units/text.h"

namespace store {
namespace {

using book::Edit;
using book::Field;
using book::Kind;
using book::Record;
using units::Fault;

tl::unexpected<Refusal> refused(std::vector<Fault> faults) { return tl::make_unexpected(Refusal{0, std::move(faults), std::nullopt}); }
tl::unexpected<Refusal> refused(Fault fault) { return refused(std::vector{std::move(fault)}); }

const char* word(Edit::What what) {
  constexpr std::array words{"add", "change", "remove", "bring_back"};
  return words[static_cast<std::size_t>(what)];
}

std::optional<std::string> known(const Record& record, const std::string& field) {
  const auto found = record.fields.find(field);
  return found == record.fields.end() ? std::nullopt : std::optional{found->second};
}

std::map<std::string, book::Changed> difference(const Record& before, const Record& after) {
  std::map<std::string, book::Changed> changes;
  for (const auto* record : {&before, &after})
    for (const auto& [field, value] : record->fields) {
      const book::Changed changed{known(before, field), known(after, field)};
      if (changed.was != changed.now) changes.emplace(field, changed);
    }
  return changes;
}

bool is_open_job(const Record& record) {
  return record.kind == "job" &&
         (record.text("state") == "wanted" || record.text("state") == "confirmed" || record.text("state") == "under_way");
}

// Who else would be left without it: kinds whose records stand or fall by another.
struct Leans {
  const char *kind, *field;
};
constexpr std::array leaning{Leans{"site", "client"}, Leans{"tree", "site"}, Leans{"member", "crew"}, Leans{"job", "tree"},
                             Leans{"job", "crew"}};

}  // namespace

Kind with_own(const Kind& kind, const std::vector<Record>& own_fields) {
  Kind wider = kind;
  for (const Record& own : own_fields)
    if (own.text("of_kind") == kind.name && !own.removed) wider.fields.push_back(book::described_by(own));
  return wider;
}

std::vector<Record> own_fields_of(Database& database) {
  std::vector<Record> all;
  const Kind& kind = book::kind("own_field");
  Query{database, "SELECT " + columns_of(kind) + " FROM own_field WHERE removed = 0 ORDER BY id"}.each(
      [&](const soci::row& row) { all.push_back(record_of(kind, row)); });
  return all;
}

book::Conflict conflict(Database& database, const Record& present, std::int64_t seen, const book::Fields& mine) {
  book::Conflict between{seen, present.version, {}, {}, {}, mine};
  each_entry(database, "WHERE kind = :kind AND record = :id", "number", {{"kind", present.kind}, {"id", present.id}},
             [&](const book::HistoryEntry& entry) {
               if (entry.version <= seen) return;
               between.by = entry.author.who;
               between.at = entry.author.when;
               for (const auto& [field, changed] : entry.changes) {
                 const auto [first, is_new] = between.theirs.try_emplace(field, changed);
                 if (!is_new) first->second.now = changed.now;
               }
             });
  return between;
}

Editor::Editor(Database& database, const book::Author& author)
    : database_(database), author_(author), own_fields_(own_fields_of(database)), history_(database) {
  Query{database_, "SELECT name, next FROM counter"}.each(
      [&](const soci::row& row) { counters_[row.get<std::string>(0)] = row.get<long long>(1); });
  counters_at_first_ = counters_;
  batch_ = take("batch");
}

void Editor::finish() {
  for (const auto& [name, next] : counters_) {
    const auto before = counters_at_first_.find(name);
    if (before != counters_at_first_.end() && before->second == next) continue;
    database_.session() << (before == counters_at_first_.end() ? "INSERT INTO counter (name, next) VALUES (:name, :next)"
                                                               : "UPDATE counter SET next = :next WHERE name = :name"),
        soci::use(name, "name"), soci::use(next, "next");
  }
}

tl::expected<Written, Refusal> Editor::carry_out(const Edit& edit) {
  const Kind* plain = book::find_kind(edit.kind);
  if (plain == nullptr) return refused({"kind", edit.kind, "expected a kind of record that there is"});
  if (own_fields_changed_) learn_own_fields();
  const Kind& kind = wider(*plain);
  if (edit.what == Edit::What::add) return add(kind, edit);
  Record present = find_record(database_, *plain, edit.id);
  if (present.version == 0) return refused({kind.name, units::for_message(edit.id), "expected the id of a " + kind.name + " in the book"});
  if (edit.version && *edit.version > present.version)
    return refused(
        {"--seen", std::to_string(*edit.version), "expected a version that there is: the last is " + std::to_string(present.version)});
  if (edit.version && *edit.version != present.version)
    return tl::make_unexpected(Refusal{0, {}, conflict(database_, present, *edit.version, edit.set)});
  if (edit.what == Edit::What::change) return change(kind, edit, std::move(present));
  return take_out(kind, edit, std::move(present));
}

tl::expected<std::vector<Written>, Refusal> Editor::carry_out_together(const std::vector<const Edit*>& edits) {
  std::vector<Written> written;
  const Counters counters = counters_;
  if (edits.size() > 1) database_.run("SAVEPOINT together");
  for (const Edit* edit : edits) {
    auto done = carry_out(*edit);
    if (!done) {
      if (edits.size() > 1) {
        database_.run("ROLLBACK TO SAVEPOINT together");
        database_.run("RELEASE SAVEPOINT together");
        counters_ = counters;
        known_to_stand_.clear();
        own_fields_changed_ = true;
      }
      return tl::make_unexpected(done.error());
    }
    written.push_back(std::move(*done));
  }
  if (edits.size() > 1) database_.run("RELEASE SAVEPOINT together");
  return written;
}

void Editor::set_fields(const Kind& kind, const book::Fields& set, Record& record, std::vector<Fault>& faults) {
  for (const auto& [name, written] : set) {
    const Field* field = kind.field(name);
    if (field == nullptr) {
      faults.push_back({units::for_message(name), "", "expected a field of a " + kind.name});
      continue;
    }
    const auto value = book::canonical(*field, written);
    if (!value)
      faults.push_back(value.error());
    else if (value->empty())
      record.fields.erase(name);
    else
      record.fields[name] = *value;
  }
}

void Editor::check_fields(const Kind& kind, const Record& record, const book::Fields& links, std::vector<Fault>& faults) {
  for (const Field& field : kind.fields) {
    const bool refused_already = std::ranges::any_of(faults, [&](const Fault& fault) { return fault.where == field.name; });
    const std::string& value = record.text(field.name);
    // An owner's own field, marked required later, must not lock every older record: book/application_record.h asks for it.
    if (field.required && value.empty() && !refused_already && !field.name.starts_with(own_prefix))
      faults.push_back({field.name, "", "expected " + book::takes(field) + ", not nothing"});
    // A link that stood there before is not looked at again: what it points to may have been removed since.
    if (field.type == book::FieldType::link && !value.empty() && links.contains(field.name) && !stands(field.links_to, value))
      faults.push_back({field.name, units::for_message(value),
                        "expected the id of a " + field.links_to + " in the book" + called(field.links_to, value)});
  }
  const auto more = book::nonsense(record);
  faults.insert(faults.end(), more.begin(), more.end());
  if (kind.name != "own_field") return;
  for (const Record& other : own_fields_)
    if (other.id != record.id && other.text("of_kind") == record.text("of_kind") && other.text("name") == record.text("name"))
      faults.push_back({"name", record.text("name"), "expected another name: own field " + other.id + " of that kind has it"});
}

tl::expected<Written, Refusal> Editor::add(const Kind& kind, const Edit& plain) {
  std::vector<Fault> faults;
  Edit edit = plain;
  for (const auto& [field, of_kind] : edit.follows) edit.set[field] = last_added_[of_kind];
  Record record{kind.name, edit.id, 1};
  if (!edit.id.empty()) {
    if (const auto id = book::canonical_id(kind.name, edit.id); !id)
      faults.push_back(id.error());
    else if (const Record there = find_record(database_, book::kind(kind.name), *id); there.version > 0 && edit.unless_there) {
      last_added_[kind.name] = there.id;
      return Written{there, there, true};
    } else if (there.version > 0)
      faults.push_back({kind.name, *id,
                        there.removed ? "expected another id: a removed " + kind.name + " had this one"
                                      : "expected another id: there is such a " + kind.name});
  }
  set_fields(kind, edit.set, record, faults);
  check_fields(kind, record, edit.set, faults);
  if (!faults.empty()) return refused(std::move(faults));
  if (record.id.empty()) record.id = next_id(kind);
  write(nullptr, record, word(edit.what));
  last_added_[kind.name] = record.id;
  return Written{{kind.name, record.id}, record};
}

tl::expected<Written, Refusal> Editor::change(const Kind& kind, const Edit& edit, Record present) {
  std::vector<Fault> faults;
  Record after = present;
  if (kind.name == "own_field")
    for (const char* fixed : {"of_kind", "name", "type"})
      if (const auto written = edit.set.find(fixed); written != edit.set.end() && written->second != present.text(fixed))
        faults.push_back({fixed, units::for_message(written->second),
                          "expected what it began with: values are kept under it; remove it and add another"});
  if (present.removed) faults.push_back({kind.name, edit.id, "expected a " + kind.name + " that was not removed; bring it back first"});
  set_fields(kind, edit.set, after, faults);
  // A job that was closed must again have what it needs.
  check_fields(kind, after, is_open_job(after) && !is_open_job(present) ? after.fields : edit.set, faults);
  if (kind.corrected && author_.why.empty() && after.fields != present.fields && faults.empty())
    faults.push_back({"--why", "", "expected a reason: a change of an application record is a correction"});
  if (!faults.empty()) return refused(std::move(faults));
  if (after.fields == present.fields) return Written{present, present, true};
  ++after.version;
  write(&present, after, word(edit.what));
  return Written{std::move(present), std::move(after)};
}

tl::expected<Written, Refusal> Editor::take_out(const Kind& kind, const Edit& edit, Record present) {
  const bool out = edit.what == Edit::What::remove;
  if (kind.corrected && author_.why.empty()) return refused({"--why", "", "expected a reason: this is part of an application record"});
  if (!out) {
    std::vector<Fault> faults;
    check_fields(kind, present, present.fields, faults);
    if (!faults.empty()) return refused(std::move(faults));
  }
  for (const Leans& leans : leaning) {
    const Kind& other = book::kind(leans.kind);
    if (!out || other.field(leans.field)->links_to != kind.name) continue;
    std::string who;
    Query{database_, "SELECT id FROM " + other.name + " WHERE removed = 0 AND " + leans.field + " = :id" +
                         (other.name == "job" ? " AND state IN ('wanted', 'confirmed', 'under_way')" : "") + " ORDER BY id LIMIT 4"}
        .bind("id", edit.id)
        .each([&](const soci::row& row) { who += (who.empty() ? "" : ", ") + row.get<std::string>(0); });
    if (!who.empty()) return refused({kind.name, edit.id, "expected no " + other.name + " left to it: " + who});
  }
  if (present.removed == out) return Written{present, present, true};
  Record after = present;
  after.removed = out;
  ++after.version;
  write(&present, after, word(edit.what));
  known_to_stand_.erase({kind.name, edit.id});
  return Written{std::move(present), std::move(after)};
}

void Editor::overwrite(const Record& before, Record after, const std::string& what) {
  ++after.version;
  write(&before, after, what);
}

bool Editor::stands(const std::string& kind, const std::string& id) {
  if (known_to_stand_.contains({kind, id})) return true;
  bool there = false;
  Query{database_, "SELECT id FROM " + kind + " WHERE id = :id AND removed = 0"}.bind("id", id).each(
      [&](const soci::row&) { there = true; });
  if (there) known_to_stand_.emplace(kind, id);
  return there;
}

// ": St. Ann's is parish", where somebody gave a name for an id.
std::string Editor::called(const std::string& kind, const std::string& name) {
  if (book::kind(kind).field("name") == nullptr) return {};
  std::string id;
  Query{database_, "SELECT id FROM " + kind + " WHERE name = :name AND removed = 0 ORDER BY id LIMIT 1"}
      .bind("name", name)
      .each([&](const soci::row& row) { id = row.get<std::string>(0); });
  return id.empty() ? id : "; the id of that one is " + units::for_message(id);
}

std::string Editor::next_id(const Kind& kind) {
  for (;;) {
    std::string id = kind.prefix + std::to_string(take(kind.name));
    if (find_record(database_, book::kind(kind.name), id).version == 0) return id;
  }
}

long long Editor::take(const std::string& counter) { return counters_.try_emplace(counter, 1).first->second++; }

// A list may bring a field of the owner's and, further down, values for it.
void Editor::learn_own_fields() {
  own_fields_ = own_fields_of(database_);
  wider_.clear();
  own_fields_changed_ = false;
}

const Kind& Editor::wider(const Kind& kind) {
  const auto known = wider_.find(kind.name);
  return known != wider_.end() ? known->second : wider_.emplace(kind.name, with_own(kind, own_fields_)).first->second;
}

RowWriter& Editor::rows(const Kind& kind) {
  auto& writer = rows_[kind.name];
  if (!writer) writer = std::make_unique<RowWriter>(database_, book::kind(kind.name));
  return *writer;
}

void Editor::write(const Record* before, const Record& after, const std::string& what) {
  RowWriter& writer = rows(book::kind(after.kind));
  own_fields_changed_ = own_fields_changed_ || after.kind == "own_field";
  if (before == nullptr)
    writer.insert(after);
  else
    writer.update(after);
  const Record nothing;
  history_.append({take("history"), batch_, author_, after.kind, after.id, after.version, what,
                   difference(before == nullptr ? nothing : *before, after)});
}

}  // namespace store
