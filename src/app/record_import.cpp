#include "app/record_import.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "app/csv.h"
#include "app/edit_plan.h"
#include "app/field_names.h"
#include "app/files.h"
#include "app/geojson.h"
#include "app/open_book.h"
#include "app/record_faults.h"
#include "feeds/table_csv.h"
#include "units/text.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;
using book::Edit;
using book::Kind;

// What a column of the file means: a field under one of its names, or the id.
struct Meaning {
  std::size_t column;
  std::string name;  // empty: the id
};

std::optional<std::pair<std::string, std::string>> pair_of(const std::string& option, const std::string& written, Outcome& outcome) {
  const auto equals = written.find('=');
  if (equals != std::string::npos && equals > 0) return std::pair{written.substr(0, equals), written.substr(equals + 1)};
  outcome.refuse({option, units::for_message(written), "expected FIELD=" + std::string{option == "--map" ? "COLUMN" : "VALUE"}});
  return std::nullopt;
}

bool is_id(const Kind& kind, const std::string& name) { return name == "id" || name == kind.name; }

bool is_field(const Kind& kind, const std::string& name) {
  return std::ranges::any_of(kind.fields, [&](const book::Field& field) {
    return field.name == name || std::ranges::any_of(other_names(field), [&](const OtherName& other) { return other.name == name; });
  });
}

std::vector<Meaning> meanings(const Kind& kind, const feeds::Table& table, const ImportRequest& request, Outcome& outcome) {
  std::map<std::size_t, std::string> meant;
  for (const std::string& written : request.map) {
    const auto pair = pair_of("--map", written, outcome);
    if (!pair) continue;
    const auto column = std::ranges::find(table.columns, pair->second);
    if (!is_id(kind, pair->first) && !is_field(kind, pair->first))
      outcome.refuse({"--map", units::for_message(pair->first), "expected a field of a " + kind.name + ", or id"});
    else if (column == table.columns.end())
      outcome.refuse({"--map", units::for_message(pair->second), "expected a column of " + request.file.filename().string()});
    else if (std::ranges::any_of(meant, [&](const auto& entry) { return entry.second == pair->first; }) ||
             !meant.try_emplace(static_cast<std::size_t>(column - table.columns.begin()), pair->first).second)
      outcome.refuse({"--map", units::for_message(written), "expected each field and each column once"});
  }
  const auto mapped = [&](const std::string& name) {
    return std::ranges::any_of(meant, [&](const auto& entry) { return entry.second == name; });
  };
  std::vector<Meaning> all;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const std::string& column = table.columns[i];
    if (const auto found = meant.find(i); found != meant.end())
      all.push_back({i, is_id(kind, found->second) ? "" : found->second});
    else if (!mapped(column) && is_id(kind, column) && !mapped("id") && !mapped(kind.name))
      all.push_back({i, ""});
    else if (!mapped(column) && is_field(kind, column))
      all.push_back({i, column});
    else
      outcome.warn(fmt::format("{}: column '{}' is left out: no field of a {} is called so", request.file.filename().string(),
                               units::for_message(column), kind.name));
  }
  if (std::ranges::count(all, "", &Meaning::name) > 1)
    outcome.refuse({request.file.filename().string(), "", "expected one column for the id: say which by --map id=COLUMN"});
  return all;
}

// The field that a name means, own or other.
std::string own_name(const Kind& kind, const std::string& name) {
  for (const book::Field& field : kind.fields)
    if (std::ranges::any_of(other_names(field), [&](const OtherName& other) { return other.name == name; })) return field.name;
  return name;
}

class Import {
 public:
  Import(const Common& common, const ImportRequest& request, store::Book& book, bool from_sheet)
      : common_(common),
        request_(request),
        book_(book),
        plan_(book, common),
        name_(request.file.filename().string()),
        from_sheet_(from_sheet) {}

  Outcome run(const feeds::Table& table) {
    const Kind& kind = plan_.face_kind(request_.kind);
    const auto columns = meanings(kind, table, request_, outcome_);
    book::Fields constants;
    for (const std::string& written : request_.set)
      if (const auto pair = pair_of("--set", written, outcome_)) constants.insert(*pair);
    for (const auto& [field, value] : constants)
      if (!is_field(kind, field)) outcome_.refuse({"--set", units::for_message(field), "expected a field of a " + kind.name});
    if (outcome_.exit != Exit::done) return std::move(outcome_);
    for (const feeds::TableRow& row : table.rows) take(row, columns, constants, table.columns.size());
    carry_out(table.rows.size());
    return std::move(outcome_);
  }

 private:
  void refuse_row(const feeds::TableRow& row, units::Fault fault) {
    fault.where = place(row) + fault.where;
    bad_.emplace_back(row.number, fault.line());
  }

  [[nodiscard]] std::string place(const feeds::TableRow& row) const {
    // A feature of GeoJSON stands on no line of its own.
    return row.line == 0 ? fmt::format("{}: row {}: ", name_, row.number) : fmt::format("{}:{}: row {}: ", name_, row.line, row.number);
  }

  void take(const feeds::TableRow& row, const std::vector<Meaning>& columns, const book::Fields& constants, std::size_t width) {
    if (row.cells.size() != width)
      return refuse_row(row, {"row", fmt::format("{} cells", row.cells.size()), fmt::format("expected {}, as in the header", width)});
    std::string id;
    book::Fields fields;
    std::set<std::string> given;
    for (const Meaning& meaning : columns) {
      const std::string cell = from_sheet_ ? csv::from_sheet(row.cells[meaning.column]) : row.cells[meaning.column];
      if (meaning.name.empty())
        id = std::string{units::trimmed(cell)};
      else {
        fields[meaning.name] = cell;
        if (!units::trimmed(cell).empty()) given.insert(own_name(plan_.face_kind(request_.kind), meaning.name));
      }
    }
    for (const auto& [name, value] : constants)
      if (!given.contains(own_name(plan_.face_kind(request_.kind), name))) fields[name] = value;
    const bool known = request_.change_known && !id.empty() && book_.find(request_.kind, id);
    // A list that knows less than the book must not wipe what it does not know.
    if (known) std::erase_if(fields, [](const auto& field) { return units::trimmed(field.second).empty(); });
    auto edits = plan_.edits(known ? Edit::What::change : Edit::What::add, request_.kind, id, fields, row.number, EditPlan::From::a_list);
    if (!edits) return refuse_row(row, edits.error());
    for (Edit& edit : *edits) {
      edits_.push_back(std::move(edit));
      rows_.push_back(&row);
    }
  }

  void carry_out(std::size_t rows) {
    const store::Mode mode = request_.dry_run         ? store::Mode::dry_run
                             : request_.leave_out_bad ? store::Mode::take_good
                             : bad_.empty()           ? store::Mode::all_or_nothing
                                                      : store::Mode::dry_run;
    const auto applied = book_.apply(edits_, author(common_, "import of " + name_), mode);
    for (const store::Refusal& refusal : applied.refusals)
      for (const units::Fault& fault : refusal.faults) refuse_row(*rows_[refusal.edit], fault);
    std::ranges::stable_sort(bad_, {}, &std::pair<std::size_t, std::string>::first);
    std::size_t bad_rows = 0, last = 0;
    for (const auto& [row, line] : bad_) {
      outcome_.err.push_back(line);
      if (row != last) ++bad_rows;
      last = row;
    }
    for (const std::string& doubt : plan_.doubts()) outcome_.warn(doubt);
    const bool kept = applied.kept;
    if (!bad_.empty()) outcome_.exit = Exit::bad_input;
    Json refused = Json::array();
    for (const auto& [row, line] : bad_) refused.push_back({{"row", row}, {"error", line}});
    const std::size_t good = rows - bad_rows;
    if (common_.format == Format::json)
      outcome_.out =
          Json{{"rows", rows}, {"taken", kept ? good : 0}, {"good", good}, {"bad", bad_rows}, {"kept", kept}, {"refused", refused}}.dump(
              2) +
          "\n";
    else if (request_.dry_run)
      outcome_.out = fmt::format("{} of {} rows are good; nothing was written (dry run)\n", good, rows);
    else if (kept)
      outcome_.out = fmt::format("{} of {} rows taken\n", good, rows);
    else
      outcome_.out = fmt::format("{} of {} rows are bad; nothing was written. Mend them, or take the good ones with --leave-out-bad\n",
                                 bad_rows, rows);
  }

  const Common& common_;
  const ImportRequest& request_;
  store::Book& book_;
  EditPlan plan_;
  std::string name_;
  bool from_sheet_;  // a text that looks like a formula carries an apostrophe
  Outcome outcome_;
  std::vector<Edit> edits_;
  std::vector<const feeds::TableRow*> rows_;  // of each edit
  std::vector<std::pair<std::size_t, std::string>> bad_;
};

}  // namespace

Outcome import_command(const Common& common, const ImportRequest& request) {
  const auto content = read_file(request.file, feeds::largest_table_bytes);
  if (!content) return refused(content.error());
  const std::string name = request.file.filename().string();
  std::string_view start = *content;
  if (start.starts_with("\xEF\xBB\xBF")) start.remove_prefix(3);
  start = units::trimmed(start.substr(0, 1000));
  const bool is_json = start.starts_with("{");
  const auto table = is_json ? read_geojson(name, *content) : feeds::read_table(name, *content);
  if (!table) return refused(table.error());
  Outcome outcome;
  auto book = open_book(common, request.dry_run ? NoBook::refuse : NoBook::make, outcome);
  if (!book) return outcome;
  Outcome imported = Import{common, request, *book, !is_json}.run(*table);
  imported.err.insert(imported.err.begin(), outcome.err.begin(), outcome.err.end());
  return imported;
}

}  // namespace app
