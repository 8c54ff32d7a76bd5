#include "app/application_report.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <set>

#include "app/csv.h"
#include "app/edit_plan.h"
#include "app/field_names.h"
#include "app/files.h"
#include "app/html.h"
#include "app/open_book.h"
#include "app/record_json.h"
#include "app/words.h"
#include "book/application_record.h"
#include "units/text.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;
using book::Record;

std::vector<Record> mixes_of(store::Book& book, const Record& treatment) {
  auto mixes = book.list("mix", {.equal = {{"treatment", treatment.id}}});
  std::ranges::stable_sort(mixes, {}, [](const Record& mix) { return mix.number("tank").value_or(0.0); });
  return mixes;
}

std::vector<book::Gap> gaps_of(store::Book& book, const Record& treatment) {
  return book::gaps(book.kind_with_own("treatment"), treatment, mixes_of(book, treatment));
}

// Changes made to a record and its tank fills and ports after they were first written.
std::vector<book::HistoryEntry> corrections_of(store::Book& book, const Record& treatment) {
  std::vector<book::HistoryEntry> all;
  const auto take = [&](const std::string& kind, const std::string& id) {
    for (auto& entry : book.history({.kind = kind, .id = id}))
      if (entry.what != "add") all.push_back(std::move(entry));
  };
  take("treatment", treatment.id);
  for (const char* kind : {"mix", "port"})
    for (const Record& part : book.list(kind, {.equal = {{"treatment", treatment.id}}, .with_removed = true})) take(kind, part.id);
  std::ranges::sort(all, {}, &book::HistoryEntry::number);
  return all;
}

std::string correction_text(store::Book& book, const book::HistoryEntry& entry, UnitSystem units, const units::ZoneOffsets& zone) {
  std::string text = fmt::format("{} by {}", words::moment(zone.to_local(entry.author.when)), entry.author.who);
  const std::string of = entry.kind == "treatment" ? "" : entry.kind + " " + entry.id + " ";
  if (entry.what != "change")
    text += ": " + of + (entry.what == "remove" ? "removed" : entry.what == "erase" ? "personal data erased" : "brought back");
  const book::Kind kind = book.kind_with_own(entry.kind);
  for (const auto& [name, changed] : entry.changes) {
    const book::Field* field = kind.field(name);
    const auto said = [&](const std::optional<std::string>& value) {
      return !value ? std::string{"nothing"} : field == nullptr ? *value : shown(*field, *value, units);
    };
    text += fmt::format("; {}{}: {} instead of {}", of, field == nullptr ? name : label(*field), said(changed.now), said(changed.was));
  }
  return text + (entry.author.why.empty() ? "" : ". Why: " + entry.author.why);
}

std::vector<Record> picked(store::Book& book, const ApplicationsRequest& request, Outcome& outcome) {
  if (!request.id.empty()) {
    const auto one = book.find("treatment", request.id);
    if (one) return {*one};
    outcome.refuse({"record", units::for_message(request.id), "expected the id of a record in the book"});
    return {};
  }
  auto all = book.list("treatment", {.between_field = "day", .between_from = request.from, .between_until = request.until});
  if (!request.client.empty()) {
    if (!book.find("client", request.client))
      outcome.refuse({"--client", units::for_message(request.client), "expected the id of a client in the book"});
    std::set<std::string> trees;
    for (const Record& site : book.list("site", {.equal = {{"client", request.client}}, .with_removed = true}))
      for (const Record& tree : book.list("tree", {.equal = {{"site", site.id}}, .with_removed = true})) trees.insert(tree.id);
    // For whom it was counts; where the record does not say, whose the tree is.
    std::erase_if(all, [&](const Record& record) {
      const std::string& whose = record.text("for_client");
      return whose.empty() ? !trees.contains(record.text("tree")) : whose != request.client;
    });
  }
  if (!request.product.empty()) {
    std::set<std::string> treatments;
    for (const Record& mix : book.list("mix", {.holds = std::pair{"product", request.product}})) treatments.insert(mix.text("treatment"));
    std::erase_if(all, [&](const Record& record) { return !treatments.contains(record.id); });
  }
  if (request.incomplete) std::erase_if(all, [&](const Record& record) { return gaps_of(book, record).empty(); });
  std::ranges::stable_sort(all, {}, [](const Record& record) { return record.text("day"); });
  return all;
}

constexpr std::array columns{"day",     "started_at", "ended_at",       "tree",    "for_name", "for_address", "location",
                             "area",    "treated",    "target",         "outcome", "reason",   "mix_l",       "leak_l",
                             "flush_l", "applicator", "licence_number", "helper",  "weather"};

// The fields of the owner's own that application records have.
std::vector<book::Field> own_fields_of(store::Book& book) {
  std::vector<book::Field> own;
  for (const book::Field& field : book.kind_with_own("treatment").fields)
    if (field.name.starts_with("own_")) own.push_back(field);
  return own;
}

std::string csv_of(store::Book& book, const std::vector<Record>& records) {
  std::string text = "record";
  for (const char* column : columns) text += std::string{","} + column;
  const auto own = own_fields_of(book);
  for (const book::Field& field : own) text += "," + field.name;
  text += ",tank,tank_volume_l,product,registration,amount,missing\n";
  for (const Record& record : records) {
    std::string start = csv::for_sheet(record.id);
    for (const char* column : columns) start += "," + csv::for_sheet(record.text(column));
    for (const book::Field& field : own) start += "," + csv::for_sheet(record.text(field.name));
    auto mixes = mixes_of(book, record);
    if (mixes.empty()) mixes.emplace_back();
    const std::string missing = csv::for_sheet(fmt::format("{}", fmt::join(gap_names(book, record), "; ")));
    for (const Record& mix : mixes) {
      text += start;
      for (const char* column : {"tank", "volume_l", "product", "registration", "amount"}) text += "," + csv::for_sheet(mix.text(column));
      text += "," + missing + "\n";
    }
  }
  return text;
}

std::string json_of(store::Book& book, const std::vector<Record>& records) {
  const book::Kind &treatment = book.kind_with_own("treatment"), &mix = book.kind_with_own("mix");
  Json list = Json::array();
  for (const Record& record : records) {
    Json one = record_json(treatment, record);
    one["mixes"] = Json::array();
    for (const Record& fill : mixes_of(book, record)) one["mixes"].push_back(record_json(mix, fill)["fields"]);
    one["missing"] = gap_names(book, record);
    list.push_back(std::move(one));
  }
  return Json{{"records", list}}.dump(2) + "\n";
}

std::string text_of(store::Book& book, const std::vector<Record>& records) {
  std::string text;
  for (const Record& record : records) {
    const auto missing = gap_names(book, record);
    std::string products;
    for (const Record& mix : mixes_of(book, record))
      if (products.find(mix.text("product")) == std::string::npos) products += (products.empty() ? "" : ", ") + mix.text("product");
    text += fmt::format("{:<8} {}  {:<14} {:<12} {:<24} {}\n", record.id + (record.removed ? " REMOVED" : ""), record.text("day"),
                        record.text("tree"), record.text("outcome"), units::for_message(products, 24),
                        missing.empty() ? "complete" : fmt::format("MISSING {}", fmt::join(missing, ", ")));
  }
  return text.empty() ? "none\n" : text;
}

void page_row(std::string& html, const std::string& what, const std::string& value, const char* law) {
  html += fmt::format("<tr><th>{}</th><td>{}</td><td class=law>{}</td></tr>\n", html::escaped(what),
                      value.empty() ? "<em>missing</em>" : html::escaped(value), law);
}

// A wall clock at the tree behind the instant of the book.
std::string at_the_tree(store::Book& book, const Common& common, const Record& record, const char* field) {
  const auto instant = record.instant(field);
  if (!instant) return {};
  const auto zone = zone_of_record(book, common, record);
  return zone ? words::moment(zone->to_local(*instant)) + " (" + zone->name() + ")" : units::to_text(*instant);
}

std::string page_of_one(store::Book& book, const Common& common, const Record& record) {
  std::string html = fmt::format("<section><h1>Record of application {}</h1>\n<table>\n", html::escaped(record.id));
  const auto amount = [&](const char* field) { return shown(*book::kind("treatment").field(field), record.text(field), common.units); };
  constexpr const char *epa = "40 CFR 171.303(b)(7)", *both = "7 CFR 110.3(a), 40 CFR 171.303(b)(7)";
  page_row(html, "Date", record.text("day"), both);
  page_row(html, "Valves open, at the tree", at_the_tree(book, common, record, "started_at"), epa);
  page_row(html, "Valves shut, at the tree", at_the_tree(book, common, record, "ended_at"), "");
  page_row(html, "For whom", record.text("for_name"), epa);
  page_row(html, "Address", record.text("for_address"), epa);
  page_row(html, "Location", record.text("location"), both);
  page_row(html, "Tree", record.text("tree"), "");
  page_row(html, "Site treated", record.text("treated"), both);
  page_row(html, "Size of area", record.text("area"), both);
  page_row(html, "Against", record.text("target").empty() ? "not noted" : record.text("target"), "");
  page_row(html, "Certified applicator", record.text("applicator"), both);
  page_row(html, "Certification number", record.text("licence_number"), both);
  page_row(html, "Under the applicator's eyes", record.text("helper").empty() ? "nobody" : record.text("helper"), epa);
  page_row(html, "Outcome", record.text("outcome") + (record.text("reason").empty() ? "" : ": " + record.text("reason")), "");
  page_row(html, "Mix taken by the tree", amount("mix_l"), "");
  page_row(html, "Lost by leaks", amount("leak_l"), "");
  page_row(html, "Clean water after it", amount("flush_l"), "");
  page_row(html, "Weather", record.text("weather").empty() ? "not noted" : record.text("weather"), "");
  for (const book::Field& field : own_fields_of(book)) page_row(html, field.help, record.text(field.name), "");
  html += fmt::format(
      "</table>\n<table><tr><th>Tank</th><th>Mix</th><th>Product</th><th>EPA registration</th><th>Amount of product</th></tr>\n");
  for (const Record& mix : mixes_of(book, record)) {
    html += fmt::format("<tr><td>{}</td><td>{}</td>", html::escaped(mix.text("tank")),
                        html::escaped(shown(*book::kind("mix").field("volume_l"), mix.text("volume_l"), common.units)));
    for (const char* field : {"product", "registration", "amount"})
      html += fmt::format("<td>{}</td>", mix.text(field).empty() ? "<em>missing</em>" : html::escaped(mix.text(field)));
    html += "</tr>\n";
  }
  html += "</table>\n";
  if (const auto missing = gap_names(book, record); !missing.empty())
    html += fmt::format("<p><strong>Incomplete.</strong> Missing: {}</p>\n", html::escaped(fmt::format("{}", fmt::join(missing, ", "))));
  if (const auto corrections = corrections_of(book, record); !corrections.empty()) {
    html += "<h2>Corrections</h2><ul>\n";
    for (const auto& entry : corrections)
      html += fmt::format("<li>{}</li>\n",
                          html::escaped(correction_text(book, entry, common.units,
                                                        zone_of_record(book, common, record).value_or(units::ZoneOffsets::utc()))));
    html += "</ul>\n";
  }
  if (!record.text("note").empty()) html += fmt::format("<h2>Note</h2><p class=note>{}</p>\n", html::escaped(record.text("note")));
  return html + "<p class=sign>Signed ________________________________ &nbsp; on ________________</p>\n" +
         fmt::format("<footer>{}</footer></section>\n", html::escaped(words::cautions()));
}

std::string page_of(store::Book& book, const Common& common, const std::vector<Record>& records) {
  std::string body;
  for (const Record& record : records) body += page_of_one(book, common, record);
  return html::page("Records of application",
                    "th{text-align:left;width:13em}td.law{font-size:8pt;color:#444;width:13em}section+section{break-before:page}"
                    "p.note{white-space:pre-wrap}p.sign{margin-top:3em}",
                    body);
}

}  // namespace

std::vector<std::string> gap_names(store::Book& book, const Record& treatment) {
  std::vector<std::string> names;
  for (const book::Gap& gap : gaps_of(book, treatment)) names.push_back(gap.field);
  return names;
}

std::string application_text(store::Book& book, const Common& common, const Record& treatment) {
  const auto zone = zone_of_record(book, common, treatment).value_or(units::ZoneOffsets::utc());
  std::string text;
  for (const book::Gap& gap : gaps_of(book, treatment)) text += fmt::format("MISSING  {} ({})\n", gap.field, gap.law);
  if (text.empty()) text = "COMPLETE by 7 CFR 110.3 and 40 CFR 171.303(b)(7); a state may ask for more\n";
  for (const auto& entry : corrections_of(book, treatment)) text += "CORRECTED  " + correction_text(book, entry, common.units, zone) + "\n";
  return text;
}

Outcome applications_command(const Common& common, const ApplicationsRequest& request) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  const auto records = picked(*book, request, outcome);
  if (outcome.exit != Exit::done) return outcome;
  if (request.page) {
    if (const auto written = write_file(*request.page, page_of(*book, common, records)); !written)
      outcome.refuse(written.error());
    else
      outcome.out = fmt::format("{}: {} record{}\n", request.page->string(), records.size(), records.size() == 1 ? "" : "s");
    return outcome;
  }
  outcome.out = common.format == Format::json  ? json_of(*book, records)
                : common.format == Format::csv ? csv_of(*book, records)
                                               : text_of(*book, records);
  return outcome;
}

}  // namespace app
