#include "app/models_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "app/csv.h"
#include "app/facts.h"
#include "app/wrap.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;
using params::Row;

std::string parameters_csv(const params::Models& models) {
  std::string text = "key,value,unit,lowest,highest,spread_ln_sd,source,rests_on,confidence,overridden,shipped_value,note\n";
  for (const Row& row : models.rows) {
    std::string rests_on;
    for (const std::string& key : row.rests_on) rests_on += (rests_on.empty() ? "" : " ") + key;
    text += fmt::format("{},{},{},{},{},{},{},{},{},{},{},{}\n", row.key, row.value, row.unit, row.lowest, row.highest,
                        csv::number(row.spread_ln_sd), row.source, rests_on, row.confidence, row.overridden ? "yes" : "no",
                        row.shipped_value, csv::text(row.note));
  }
  return text;
}

std::string parameters_json(const params::Models& models) {
  Json parameters = Json::array();
  for (const Row& row : models.rows)
    parameters.push_back({{"key", row.key},
                          {"value", row.value},
                          {"unit", row.unit},
                          {"range", {row.lowest, row.highest}},
                          {"spread_ln_sd", row.spread_ln_sd ? Json(*row.spread_ln_sd) : Json(nullptr)},
                          {"source", row.source},
                          {"source_text", row.source_text},
                          {"rests_on", row.rests_on},
                          {"confidence", std::string{row.confidence}},
                          {"note", row.note},
                          {"overridden", row.overridden},
                          {"shipped_value", row.shipped_value}});
  Json references = Json::array();
  for (const auto& reference : models.references)
    references.push_back({{"key", reference.key}, {"text", reference.text}, {"address", reference.address}});
  Json unanswered = Json::array();
  for (const auto& species : models.unanswered)
    unanswered.push_back({{"key", species.key}, {"latin", species.latin}, {"english", species.english}, {"reason", species.reason}});
  return Json{{"parameters", std::move(parameters)}, {"references", std::move(references)}, {"unanswered", std::move(unanswered)}}.dump(2) +
         "\n";
}

std::size_t number_of(const std::vector<params::Reference>& references, const std::string& key) {
  const auto found = std::find_if(references.begin(), references.end(), [&](const auto& reference) { return reference.key == key; });
  return static_cast<std::size_t>(found - references.begin()) + 1;
}

std::string range_text(const Row& row) { return fmt::format("{:g} to {:g}", row.lowest, row.highest); }

// One file's parameters under its name; the key column as wide as its longest key.
std::string group_text(const std::vector<Row>& rows, std::size_t from, std::size_t until, const std::string& stem,
                       const std::vector<params::Reference>& references) {
  std::size_t width = 0;
  for (std::size_t i = from; i < until; ++i) width = std::max(width, rows[i].key.size() - stem.size() - 1);
  std::string text = fmt::format("\n{}.json\n", stem);
  for (std::size_t i = from; i < until; ++i) {
    const Row& row = rows[i];
    text += fmt::format("{} {:<{}} {:>8g} {:<9} {:>13} {:>4} {} [{}]\n", row.overridden ? '*' : ' ', row.key.substr(stem.size() + 1), width,
                        row.value, row.unit == "1" ? "" : row.unit, range_text(row),
                        row.spread_ln_sd ? fmt::format("{:g}", *row.spread_ln_sd) : "", row.confidence, number_of(references, row.source));
    if (row.overridden) text += wrap(fmt::format("the owner's; shipped {:g}. {}", row.shipped_value, row.note), "    ");
  }
  return text;
}

std::string parameters_text(const params::Models& models) {
  std::string text =
      "Name, value, unit, range, spread between trees (sd of the logarithm), confidence, [source]; * the\n"
      "owner's own value. Confidence: A table or data read, B abstract read, C from memory, D our estimate.\n";
  const auto& rows = models.rows;
  for (std::size_t from = 0; from < rows.size();) {
    const std::string stem = rows[from].key.substr(0, rows[from].key.find('.'));
    std::size_t until = from;
    while (until < rows.size() && rows[until].key.starts_with(stem + ".")) ++until;
    text += group_text(rows, from, until, stem, models.references);
    from = until;
  }
  text += "\nSOURCES\n";
  for (std::size_t i = 0; i < models.references.size(); ++i) {
    const auto& reference = models.references[i];
    const std::string mark = fmt::format("{:>5} ", fmt::format("[{}]", i + 1));
    const std::string words = reference.text + (reference.address.empty() ? "" : " " + reference.address);
    text += wrap(words, std::string(mark.size(), ' ')).replace(0, mark.size(), mark);
  }
  return text;
}

std::string facts_json(const std::vector<FactLine>& lines) {
  Json facts = Json::array();
  std::size_t inside = 0;
  for (const FactLine& line : lines) {
    inside += line.inside ? 1 : 0;
    facts.push_back({{"fact", line.fact.key},
                     {"text", line.fact.text},
                     {"source", line.fact.source},
                     {"source_text", line.fact.source_text},
                     {"published", line.fact.published},
                     {"bar", {line.fact.lowest, line.fact.highest}},
                     {"unit", line.fact.unit},
                     {"model", std::isfinite(line.model) ? Json(line.model) : Json(nullptr)},
                     {"inside", line.inside}});
  }
  return Json{{"facts", std::move(facts)}, {"inside", inside}, {"of", lines.size()}}.dump(2) + "\n";
}

Outcome facts(const Common& common, const std::filesystem::path& directory) {
  const auto known = params::load_facts(directory);
  if (!known) return refused(known.error());
  const auto lines = check_facts(common.models, *known);
  if (!lines) return refused(lines.error());
  Outcome outcome;
  outcome.out = common.format == Format::json ? facts_json(*lines) : common.format == Format::csv ? facts_csv(*lines) : facts_text(*lines);
  return outcome;
}

}  // namespace

Outcome models_command(const Common& common, const ModelsRequest& request) {
  if (request.facts) return facts(common, request.directory);
  Outcome outcome;
  outcome.out = common.format == Format::json  ? parameters_json(common.models)
                : common.format == Format::csv ? parameters_csv(common.models)
                                               : parameters_text(common.models);
  return outcome;
}

}  // namespace app
