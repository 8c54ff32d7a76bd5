#include "app/best_days.h"

#include <fmt/format.h>

#include "app/csv.h"
#include "app/files.h"
#include "app/office.h"
#include "app/words.h"
#include "feeds/table_csv.h"
#include "net/durable_file.h"

namespace app {
namespace {

std::optional<std::filesystem::path> file_of(const Common& common) {
  const auto places = settings::find_places({}, common.around->environment);
  // Each book has its own: two offices may call a tree alike.
  return places ? std::optional{places->cache / fmt::format("best-days-{:016x}.csv", std::hash<std::string>{}(common.book.value_or("")))}
                : std::nullopt;
}

}  // namespace

BestDays BestDays::read(const Common& common) {
  BestDays best;
  const auto file = file_of(common);
  const auto content = file ? read_file(*file) : units::fault("", "", "");
  const auto table = content ? feeds::read_table("", *content) : units::fault("", "", "");
  const std::string today = units::to_text(units::ZoneOffsets::utc().day_of(common.now));
  if (table && table->columns.size() == 4)
    for (const auto& row : table->rows)
      if (row.cells.size() == 4 && row.cells[1] >= today)
        best.by_tree_[csv::from_sheet(row.cells[0])] = {row.cells[1], row.cells[2], row.cells[3]};
  return best;
}

void BestDays::keep(const Common& common, const DaysReport& report) {
  const auto file = file_of(common);
  if (!file) return;
  BestDays best = read(common);
  for (const TreeReport& tree : report.trees) {
    const days::DayAnswer& day = tree.answers[tree.ranking.front().day];
    best.by_tree_.erase(tree.tree.row.tree);
    if (day.verdict == days::Verdict::no_go) continue;
    best.by_tree_[tree.tree.row.tree] = {units::to_text(day.date), words::verdict_key(day.verdict), units::to_text(report.made_at)};
  }
  std::string text = "tree,date,verdict,made_at\n";
  for (const auto& [tree, day] : best.by_tree_)
    text += fmt::format("{},{},{},{}\n", csv::for_sheet(tree), day.date, day.verdict, day.made_at);
  (void)net::write_whole(*file, text);  // a convenience: the answer itself has been given
}

const BestDay* BestDays::of(const std::string& tree) const {
  const auto found = by_tree_.find(tree);
  return found == by_tree_.end() ? nullptr : &found->second;
}

std::string BestDays::said(const std::string& tree) const {
  const BestDay* day = of(tree);
  if (day == nullptr) return {};
  const auto date = units::parse_day(day->date);
  const auto made = units::parse_instant(day->made_at);
  if (!date || !made) return {};
  const std::string verdict = day->verdict == "go" ? "GO" : "TIGHT";
  return fmt::format("{} {} (said {})", words::day(*date), verdict, words::day(units::ZoneOffsets::utc().day_of(*made)));
}

}  // namespace app
