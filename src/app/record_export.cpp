#include "app/record_export.h"

#include <map>

#include "app/csv.h"
#include "app/geojson.h"
#include "app/open_book.h"

namespace app {
namespace {

std::string csv_of(const book::Kind& kind, const std::vector<book::Record>& records) {
  std::string text = "id";
  for (const book::Field& field : kind.fields) text += "," + field.name;
  text += "\n";
  for (const book::Record& record : records) {
    text += csv::for_sheet(record.id);
    for (const book::Field& field : kind.fields) {
      const bool numeric = field.type == book::FieldType::number || field.type == book::FieldType::whole;
      text += "," + (numeric ? record.text(field.name) : csv::for_sheet(record.text(field.name)));
    }
    text += "\n";
  }
  return text;
}

std::string points_of(store::Book& book, const book::Kind& kind, const std::vector<book::Record>& records, Outcome& outcome) {
  std::map<std::string, book::Record> sites;
  if (kind.name == "tree")
    for (auto& site : book.list("site", {.with_removed = true})) sites.emplace(site.id, site);
  std::vector<PlacedRecord> placed;
  for (const book::Record& record : records) {
    const auto site = sites.find(record.text("site"));
    const auto of = [&](const char* field) {
      const auto own = record.number(field);
      return own || site == sites.end() ? own : site->second.number(field);
    };
    const auto latitude = of("lat"), longitude = of("lon");
    if (latitude && longitude)
      placed.push_back({record, *latitude, *longitude});
    else
      outcome.warn(record.kind + " " + record.id + ": left out: no place is known");
  }
  return geojson(kind, placed);
}

}  // namespace

Outcome export_command(const Common& common, const ExportRequest& request) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  const book::Kind kind = book->kind_with_own(request.kind);
  if (request.geojson && kind.field("lat") == nullptr) {
    outcome.err.push_back("sapdraw: --geojson: expected a kind of record that has a place: tree, site or depot");
    outcome.exit = Exit::wrong_use;
    return outcome;
  }
  const auto records = book->list(request.kind, {});
  outcome.out = request.geojson ? points_of(*book, kind, records, outcome) : csv_of(kind, records);
  return outcome;
}

}  // namespace app
