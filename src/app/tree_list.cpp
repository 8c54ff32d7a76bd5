#include "app/tree_list.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/due_command.h"
#include "app/files.h"
#include "app/open_book.h"

namespace app {
namespace {

using book::Record;

std::size_t most(const Common& common) { return static_cast<std::size_t>(common.models.office.most_trees); }

template <class Quantity>
std::optional<Quantity> quantity(const Record& record, const char* field, double factor = 1.0) {
  const auto number = record.number(field);
  return number ? std::optional{Quantity{*number * factor}} : std::nullopt;
}

// Trees of bookings that are still to come, and due trees.
std::vector<std::string> asked_about(store::Book& book, const Common& common) {
  std::vector<std::string> ids;
  const auto ask = [&](const std::string& id) {
    if (std::ranges::find(ids, id) == ids.end()) ids.push_back(id);
  };
  for (const char* state : {"under_way", "confirmed", "wanted"})
    for (const Record& job : book.list("job", {.equal = {{"state", state}}})) ask(job.text("tree"));
  const units::LocalDay today = units::ZoneOffsets::utc().day_of(common.now);
  for (const DueTree& tree : due_trees(book, common, most(common)))
    if (tree.urgent || (tree.due && tree.due->by <= today + std::chrono::days{common.models.office.look_ahead_days})) ask(tree.tree.tree);
  return ids;
}

std::vector<Record> records_asked_about(store::Book& book, const Common& common, const std::string& only_tree, Outcome& outcome) {
  std::vector<Record> records;
  if (!only_tree.empty()) {
    auto tree = book.find("tree", only_tree);
    if (tree && !tree->text("gone_on").empty()) outcome.warn("tree " + only_tree + " is gone since " + tree->text("gone_on"));
    if (tree && !tree->removed) records.push_back(std::move(*tree));
    return records;
  }
  for (const std::string& id : asked_about(book, common))
    if (auto tree = book.find("tree", id); tree && !tree->removed) records.push_back(std::move(*tree));
  if (records.empty()) records = book.list("tree", {.limit = most(common) + 1});
  std::erase_if(records, [](const Record& tree) { return !tree.text("gone_on").empty(); });
  if (records.size() > most(common)) {
    records.resize(most(common));
    outcome.warn(fmt::format("only {} trees of the book are answered for, booked ones first; name one with --tree", most(common)));
  }
  return records;
}

std::optional<TreeList> of_book(const Common& common, const std::string& only_tree, Outcome& outcome) {
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return std::nullopt;
  TreeList list{"the book", {}, {}};
  for (const Record& site : book->list("site", {}))
    list.sites.push_back({{units::Degrees{site.number("lat").value_or(0.0)}, units::Degrees{site.number("lon").value_or(0.0)},
                           units::Metres{site.number("elevation_m").value_or(0.0)}},
                          site.text("zone")});
  for (const Record& tree : records_asked_about(*book, common, only_tree, outcome)) {
    auto row = tree_row(*book, tree);
    if (row)
      list.file.trees.push_back(std::move(*row));
    else
      list.file.refused.push_back(std::move(row.error()));
  }
  return list;
}

}  // namespace

tl::expected<feeds::TreeRow, feeds::RefusedTree> tree_row(store::Book& book, const Record& tree) {
  feeds::RefusedTree refused{0, tree.id, {}};
  const auto site = book.find("site", tree.text("site"));
  const auto diameters = book.latest_diameters(tree.id);
  if (!site) refused.faults.push_back({"tree " + tree.id + ": site", "", "expected a site"});
  if (diameters.empty())
    refused.faults.push_back(
        {"tree " + tree.id + ": dbh_cm", "", "expected a measured diameter: sapdraw tree change " + tree.id + " --dbh-in N"});
  if (!refused.faults.empty()) return tl::make_unexpected(std::move(refused));
  const auto place = [&](const char* field) { return tree.number(field) ? *tree.number(field) : site->number(field).value_or(0.0); };
  feeds::TreeRow row;
  row.tree = tree.id;
  row.name = tree.text("name");
  row.species = tree.text("species");
  row.dbh = units::Centimetres{diameters.back().number("dbh_cm").value_or(0.0)};
  row.site = {units::Degrees{place("lat")}, units::Degrees{place("lon")}, units::Metres{site->number("elevation_m").value_or(0.0)}};
  row.zone = site->text("zone");
  row.soil = site->text("soil");
  row.dose = quantity<units::Litres>(tree, "dose_l");
  if (const auto ports = tree.number("ports")) row.ports = static_cast<int>(*ports);
  row.crown = quantity<units::Metres>(tree, "crown_m");
  row.crown_now = quantity<units::Fraction>(tree, "crown_now_pct", 0.01);
  row.full_leaf_on = tree.day("full_leaf_on");
  row.leave_by = tree.clock("leave_by");
  row.rew_now = quantity<units::Fraction>(tree, "rew_now");
  row.probe = quantity<units::Fraction>(tree, "probe_pct", 0.01);
  row.probe_depth = quantity<units::Centimetres>(tree, "probe_cm");
  if (row.probe && !row.probe_depth) {
    refused.faults.push_back({"tree " + tree.id + ": probe_cm", "", "expected the depth of the reading in probe_pct"});
    return tl::make_unexpected(std::move(refused));
  }
  if (const auto found = std::ranges::find(feeds::soil_feels, tree.text("soil_feel")); found != feeds::soil_feels.end())
    row.soil_feel = static_cast<std::size_t>(found - feeds::soil_feels.begin());
  row.soil_on = tree.day("soil_on");
  row.hole_diameter_mm = tree.number("hole_diameter_mm");
  row.pressure = quantity<units::Kilopascals>(tree, "pressure_kpa");
  return row;
}

std::optional<TreeList> read_tree_list(const Common& common, const std::filesystem::path& trees, const std::string& only_tree,
                                       Outcome& outcome) {
  if (trees.empty()) return of_book(common, only_tree, outcome);
  const std::string name = trees.filename().string();
  const auto content = read_file(trees);
  if (!content) {
    outcome.refuse(content.error());
    return std::nullopt;
  }
  auto file = feeds::read_trees(name, *content);
  if (!file) {
    outcome.refuse(file.error());
    return std::nullopt;
  }
  for (const std::string& warning : file->warnings) outcome.warn(warning);
  TreeList list{name, std::move(*file), {}};
  for (const feeds::TreeRow& row : list.file.trees) list.sites.push_back({row.site, row.zone});
  return list;
}

}  // namespace app
