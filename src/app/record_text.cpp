#include "app/record_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/field_names.h"
#include "app/words.h"
#include "units/text.h"

namespace app {
namespace {

std::string capitals(std::string text) {
  std::ranges::transform(text, text.begin(), [](char c) {
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c == '_' ? ' ' : c;
  });
  return text;
}

std::string said(const std::optional<std::string>& value) { return value ? units::for_message(*value, 80) : "nothing"; }

}  // namespace

std::string record_text(const book::Kind& kind, const book::Record& record, UnitSystem units,
                        const std::optional<units::ZoneOffsets>& zone) {
  std::string text =
      fmt::format("{} {}, version {}{}\n", capitals(kind.name), record.id, record.version, record.removed ? ", REMOVED" : "");
  for (const book::Field& field : kind.fields) {
    const std::string& value = record.text(field.name);
    if (value.empty()) continue;
    const std::string mark = fmt::format("  {:<20} ", label(field));
    const auto instant = field.type == book::FieldType::instant && zone ? record.instant(field.name) : std::nullopt;
    std::string lines = instant ? words::moment(zone->to_local(*instant)) : shown(field, value, units);
    for (std::size_t at = lines.find('\n'); at != std::string::npos; at = lines.find('\n', at + 1))
      lines.insert(at + 1, std::string(mark.size(), ' '));
    text += mark + lines + "\n";
  }
  return text;
}

std::string record_line(const book::Kind& kind, const book::Record& record, UnitSystem units) {
  std::string line = record.id + (record.removed ? " (removed)" : "");
  std::size_t told = 0;
  for (const book::Field& field : kind.fields) {
    const std::string& value = record.text(field.name);
    if (value.empty() || field.type == book::FieldType::note || ++told > 6) continue;
    line += fmt::format("  {} {}", label(field), units::for_message(shown(field, value, units), 40));
  }
  return line;
}

std::string history_text(const book::HistoryEntry& entry) {
  std::string text = fmt::format("{}  {}  {} {} {}{}\n", units::to_text(entry.author.when), entry.author.who, entry.what, entry.kind,
                                 entry.id, entry.author.why.empty() ? "" : ": " + entry.author.why);
  for (const auto& [field, changed] : entry.changes)
    text += entry.what == "add" ? fmt::format("    {} {}\n", field, said(changed.now))
                                : fmt::format("    {} was {}, now {}\n", field, said(changed.was), said(changed.now));
  return text;
}

std::string leaning_text(store::Book& book, const book::Record& record, UnitSystem units, std::size_t most) {
  std::string text;
  for (const book::Kind& kind : book::kinds())
    for (const book::Field& field : kind.fields) {
      if (field.type != book::FieldType::link || field.links_to != record.kind) continue;
      const auto all = book.list(kind.name, {.equal = {{field.name, record.id}}, .limit = most + 1});
      if (all.empty()) continue;
      std::string head = kind.plural;
      std::ranges::replace(head, '_', ' ');
      text += fmt::format("{}{}\n", capitals(head), field.name == record.kind ? "" : " (" + label(field) + ")");
      for (std::size_t i = 0; i < std::min(most, all.size()); ++i) text += "  " + record_line(kind, all[i], units) + "\n";
      if (all.size() > most)
        text += fmt::format("  and more: sapdraw {} list --where {}={} --limit 0\n",
                            kind.command + (kind.part.empty() ? "" : " " + kind.part), field.name, record.id);
    }
  return text;
}

}  // namespace app
