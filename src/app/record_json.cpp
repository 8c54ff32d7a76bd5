#include "app/record_json.h"

#include <nlohmann/json.hpp>

#include "units/text.h"

namespace app {

using Json = nlohmann::ordered_json;

namespace {

Json value_json(const book::Field* field, const std::string& value) {
  if (field == nullptr) return value;
  switch (field->type) {
    case book::FieldType::number:
      return units::parse_number(value).value_or(0.0);
    case book::FieldType::whole:
      return static_cast<long long>(units::parse_number(value).value_or(0.0));
    case book::FieldType::yes_no:
      return value == "yes";
    default:
      return value;
  }
}

}  // namespace

Json record_json(const book::Kind& kind, const book::Record& record) {
  Json json{{"kind", record.kind}, {"id", record.id}, {"version", record.version}, {"removed", record.removed}};
  Json& fields = json["fields"] = Json::object();
  for (const book::Field& field : kind.fields)
    if (const std::string& value = record.text(field.name); !value.empty()) fields[field.name] = value_json(&field, value);
  for (const auto& [name, value] : record.fields)
    if (!fields.contains(name)) fields[name] = value;  // of an own field that was given up
  return json;
}

Json history_json(const book::HistoryEntry& entry) {
  Json changes = Json::object();
  const auto text = [](const std::optional<std::string>& value) { return value ? Json(*value) : Json(nullptr); };
  for (const auto& [field, changed] : entry.changes) changes[field] = {{"was", text(changed.was)}, {"now", text(changed.now)}};
  return {{"number", entry.number},  {"batch", entry.batch},     {"at", units::to_text(entry.author.when)},
          {"who", entry.author.who}, {"why", entry.author.why},  {"kind", entry.kind},
          {"id", entry.id},          {"version", entry.version}, {"what", entry.what},
          {"changes", changes}};
}

}  // namespace app
