#include "app/record_command.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/application_report.h"
#include "app/csv.h"
#include "app/edit_plan.h"
#include "app/field_names.h"
#include "app/lawful_report.h"
#include "app/open_book.h"
#include "app/record_faults.h"
#include "app/record_json.h"
#include "app/record_text.h"
#include "units/text.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;
using book::Edit;
using book::Kind;
using book::Record;

constexpr std::size_t leaning_shown = 20;

const char* past(Edit::What what) {
  switch (what) {
    case Edit::What::add:
      return "added";
    case Edit::What::change:
      return "changed";
    case Edit::What::remove:
      return "removed";
    case Edit::What::bring_back:
      break;
  }
  return "brought back";
}

std::string written_text(const Kind& kind, const store::Written& written, Edit::What what, UnitSystem units) {
  const Record &before = written.before, &after = written.after;
  if (written.unchanged) return fmt::format("{} {}: nothing to change, it is so already\n", after.kind, after.id);
  std::string text = fmt::format("{} {} {}, version {}\n", after.kind, after.id,
                                 past(before.version == 0       ? Edit::What::add
                                      : what == Edit::What::add ? Edit::What::change
                                                                : what),
                                 after.version);
  if (before.version == 0) return text;
  for (const book::Field& field : kind.fields) {
    const std::string &was = before.text(field.name), &now = after.text(field.name);
    const auto said = [&](const std::string& value) {
      return value.empty() ? std::string{"nothing"} : units::for_message(shown(field, value, units));
    };
    if (was != now) text += fmt::format("  {}: {}, was {}\n", label(field), said(now), said(was));
  }
  return text;
}

Json written_json(const Kind& kind, const store::Written& written) {
  Json json = record_json(kind, written.after);
  json["unchanged"] = written.unchanged;
  return json;
}

Json findings_json(const std::vector<book::Finding>& findings) {
  Json list = Json::array();
  for (const auto& finding : findings)
    list.push_back({{"rule", finding.rule.id},
                    {"needs", finding.rule.text("needs")},
                    {"state", finding_key(finding)},
                    {"why", why_key(finding)},
                    {"until", finding.until ? Json(units::to_text(*finding.until)) : Json(nullptr)}});
  return list;
}

// What a kind has to say beyond its fields.
std::string more_text(store::Book& book, const Common& common, const Record& record) {
  if (record.kind == "treatment") return application_text(book, common, record);
  if (record.kind != "job") return {};
  const auto findings = findings_of(book, common, record);
  if (findings.empty()) return {};
  const auto zone = zone_of_record(book, common, record).value_or(units::ZoneOffsets::utc());
  std::string text = book::may_go(findings) ? "MAY IT GO: by the owner's rules, yes\n" : "MAY IT GO: NO, by the owner's rules\n";
  for (const auto& finding : findings) text += "  " + finding_text(finding, zone) + "\n";
  return text;
}

}  // namespace

Outcome edit_command(const Common& common, const EditRequest& request) {
  Outcome outcome;
  const bool adds = request.what == Edit::What::add;
  auto book = open_book(common, adds ? NoBook::make : NoBook::refuse, outcome);
  if (!book) return outcome;
  EditPlan plan{*book, common};
  auto edits = plan.edits(request.what, request.kind, request.id, request.set, 1);
  if (!edits) return refused(edits.error());
  for (Edit& edit : *edits)
    if (edit.kind == request.kind) edit.version = request.seen;
  const store::Applied applied = book->apply(*edits, author(common, request.why), store::Mode::all_or_nothing);
  for (const store::Refusal& refusal : applied.refusals)
    if (refusal.conflict) {
      for (const auto& line : conflict_lines(request.kind, request.id, *refusal.conflict)) outcome.err.push_back(line);
      outcome.exit = Exit::bad_input;
    }
  if (outcome.exit != Exit::done) return outcome;
  tell_refusals(
      applied, [&](std::size_t) { return request.kind + (request.id.empty() ? "" : " " + units::for_message(request.id)) + ": "; },
      outcome);
  if (!applied.kept) return outcome;
  for (const std::string& doubt : plan.doubts()) outcome.warn(doubt);

  Json list = Json::array();
  for (const store::Written& written : applied.written) {
    const Kind& kind = plan.face_kind(written.after.kind);
    if (written.unchanged && applied.written.size() > 1 && common.format != Format::json) continue;  // something else was done
    if (common.format == Format::json)
      list.push_back(written_json(kind, written));
    else
      outcome.out += written_text(kind, written, request.what, common.units);
    if (written.after.kind != "job" || written.before.version == 0) continue;
    for (const auto& line : reopened(*book, common, written.before, written.after)) outcome.warn("job " + written.after.id + " " + line);
  }
  if (common.format == Format::json) outcome.out = list.dump(2) + "\n";
  return outcome;
}

Outcome show_command(const Common& common, const ShowRequest& request) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  const auto record = book->find(request.kind, request.id);
  if (!record) return refused({request.kind, units::for_message(request.id), "expected the id of a " + request.kind + " in the book"});
  const Kind kind = book->kind_with_own(request.kind);
  std::vector<book::HistoryEntry> history;
  if (request.history) history = book->history({.kind = request.kind, .id = request.id});
  if (common.format == Format::json) {
    Json json = record_json(kind, *record);
    if (request.kind == "job") json["lawful"] = findings_json(findings_of(*book, common, *record));
    if (request.kind == "treatment") json["missing"] = gap_names(*book, *record);
    if (request.history) {
      json["history"] = Json::array();
      for (const auto& entry : history) json["history"].push_back(history_json(entry));
    }
    outcome.out = json.dump(2) + "\n";
    return outcome;
  }
  book->at_one_moment([&] {
    outcome.out = record_text(kind, *record, common.units, zone_of_record(*book, common, *record)) + more_text(*book, common, *record) +
                  leaning_text(*book, *record, common.units, leaning_shown);
  });
  if (request.history) outcome.out += "HISTORY\n";
  for (const auto& entry : history) outcome.out += history_text(entry);
  return outcome;
}

Outcome list_command(const Common& common, const ListRequest& request) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  const Kind kind = book->kind_with_own(request.kind);
  store::Filter filter{.with_removed = request.removed, .limit = request.limit == 0 ? 0 : request.limit + 1};
  const auto condition = [&](const std::string& option, const std::string& written) -> std::optional<std::pair<std::string, std::string>> {
    const auto equals = written.find('=');
    const book::Field* field = equals == std::string::npos ? nullptr : book::kind(request.kind).field(written.substr(0, equals));
    const bool holds = option == "--holds";
    const bool is_text = field != nullptr && (field->type == book::FieldType::text || field->type == book::FieldType::note ||
                                              field->type == book::FieldType::link || field->type == book::FieldType::choice);
    if (field == nullptr || (holds && !is_text)) {
      outcome.refuse({option, units::for_message(written),
                      std::string{"expected FIELD=VALUE with "} + (holds ? "a text" : "a field") + " of a " + request.kind});
      return std::nullopt;
    }
    return std::pair{field->name, written.substr(equals + 1)};
  };
  for (const std::string& written : request.where) {
    auto equal = condition("--where", written);
    if (!equal) return outcome;
    const auto value = book::canonical(*kind.field(equal->first), equal->second);
    if (!value) return refused(value.error());
    filter.equal.emplace_back(equal->first, *value);
  }
  if (!request.holds.empty()) {
    filter.holds = condition("--holds", request.holds);
    if (!filter.holds) return outcome;
  }
  auto records = book->list(request.kind, filter);
  const bool more = request.limit != 0 && records.size() > request.limit;
  if (more) records.resize(request.limit);
  Json list = Json::array();
  for (const Record& record : records) {
    if (common.format == Format::json)
      list.push_back(record_json(kind, record));
    else
      outcome.out += record_line(kind, record, common.units) + "\n";
  }
  if (common.format == Format::json) outcome.out = Json{{kind.plural, list}, {"more", more}}.dump(2) + "\n";
  if (more) outcome.warn(fmt::format("only the first {} are listed; --limit 0 lists all", request.limit));
  if (records.empty() && common.format == Format::text) outcome.out = "none\n";
  return outcome;
}

}  // namespace app
