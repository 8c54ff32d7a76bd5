#include "store/history.h"

#include <nlohmann/json.hpp>

namespace store {

using Json = nlohmann::json;

struct HistoryWriter::Bound {
  long long number = 0, batch = 0, version = 0;
  std::string at, who, why, kind, record, what, changes;
  soci::statement statement;
  explicit Bound(soci::session& session) : statement(session) {}
};

HistoryWriter::HistoryWriter(Database& database) : bound_(std::make_unique<Bound>(database.session())) {
  Bound& b = *bound_;
  b.statement.exchange(soci::use(b.number, "number"));
  b.statement.exchange(soci::use(b.batch, "batch"));
  b.statement.exchange(soci::use(b.at, "at"));
  b.statement.exchange(soci::use(b.who, "who"));
  b.statement.exchange(soci::use(b.why, "why"));
  b.statement.exchange(soci::use(b.kind, "kind"));
  b.statement.exchange(soci::use(b.record, "record"));
  b.statement.exchange(soci::use(b.version, "version"));
  b.statement.exchange(soci::use(b.what, "what"));
  b.statement.exchange(soci::use(b.changes, "changes"));
  b.statement.alloc();
  b.statement.prepare(
      "INSERT INTO history (number, batch, at, who, why, kind, record, version, what, changes) "
      "VALUES (:number, :batch, :at, :who, :why, :kind, :record, :version, :what, :changes)");
  b.statement.define_and_bind();
}

HistoryWriter::~HistoryWriter() = default;

void HistoryWriter::append(const book::HistoryEntry& entry) {
  Bound& b = *bound_;
  b.number = entry.number;
  b.batch = entry.batch;
  b.version = entry.version;
  b.at = units::to_text(entry.author.when);
  b.who = entry.author.who;
  b.why = entry.author.why;
  b.kind = entry.kind;
  b.record = entry.id;
  b.what = entry.what;
  b.changes = changes_json(entry.changes);
  b.statement.execute(true);
}

void each_entry(Database& database, const std::string& where, const std::string& order,
                const std::vector<std::pair<std::string, std::string>>& bound, const std::function<void(const book::HistoryEntry&)>& take) {
  Query query{database,
              "SELECT number, batch, at, who, why, kind, record, version, what, changes FROM history " + where + " ORDER BY " + order};
  for (const auto& [name, value] : bound) query.bind(name, value);
  query.each([&](const soci::row& row) {
    take({row.get<long long>(0),
          row.get<long long>(1),
          {row.get<std::string>(3), units::parse_instant(row.get<std::string>(2)).value_or(units::UtcTime{}), row.get<std::string>(4)},
          row.get<std::string>(5),
          row.get<std::string>(6),
          row.get<long long>(7),
          row.get<std::string>(8),
          changes_of(row.get<std::string>(9))});
  });
}

std::string changes_json(const std::map<std::string, book::Changed>& changes) {
  const auto value = [](const std::optional<std::string>& text) { return text ? Json(*text) : Json(nullptr); };
  Json json = Json::object();
  for (const auto& [field, changed] : changes) json[field] = Json::array({value(changed.was), value(changed.now)});
  return json.dump();
}

std::map<std::string, book::Changed> changes_of(const std::string& json) {
  const auto text = [](const Json& value) { return value.is_null() ? std::nullopt : std::optional{value.get<std::string>()}; };
  std::map<std::string, book::Changed> changes;
  const Json parsed = Json::parse(json);
  for (const auto& [field, pair] : parsed.items()) changes.emplace(field, book::Changed{text(pair.at(0)), text(pair.at(1))});
  return changes;
}

}  // namespace store
