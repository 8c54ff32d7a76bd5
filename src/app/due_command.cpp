#include "app/due_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "app/best_days.h"
#include "app/csv.h"
#include "app/open_book.h"
#include "app/words.h"
#include "params/lookup.h"
#include "tree/leaf_state.h"
#include "units/text.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;
using std::chrono::days;
using units::LocalDay;

int year_of(LocalDay day) { return static_cast<int>(std::chrono::year_month_day{day}.year()); }

// The days on which growing seasons end, by latitude to a quarter of a degree: a day's length moves by minutes within it.
class SeasonEnds {
 public:
  SeasonEnds(const tree::LeafCalendar& calendar, int first_year, int last_year)
      : calendar_(calendar), first_(first_year), last_(last_year) {}

  const std::vector<LocalDay>& at(double latitude_deg) {
    const double rounded = std::round(latitude_deg * 4.0) / 4.0;
    const auto [known, is_new] = known_.try_emplace(rounded);
    if (is_new)
      for (int year = first_; year <= last_; ++year) {
        const auto end = tree::season_end(calendar_, units::Degrees{rounded}, year);
        // Near the equator no day is that short: a year is a season.
        known->second.push_back(end.value_or(LocalDay{std::chrono::year{year} / std::chrono::December / 31}));
      }
    return known->second;
  }

 private:
  const tree::LeafCalendar& calendar_;
  int first_, last_;
  std::map<double, std::vector<LocalDay>> known_;
};

std::string said(const DueTree& tree) {
  if (tree.urgent) return "URGENT";
  if (!tree.due) return "";
  return tree.due->overdue ? "OVERDUE" : "due by " + words::dated(tree.due->by);
}

std::string text_of(const std::vector<DueTree>& trees, const BestDays& best, long long never) {
  std::string text =
      fmt::format("{:<14} {:<22} {:<20} {:<11} {:>7}  {:<22} {}\n", "tree", "name", "species", "last", "seasons", "due", "best coming day");
  for (const DueTree& tree : trees)
    text += fmt::format("{:<14} {:<22} {:<20} {:<11} {:>7}  {:<22} {}\n", units::for_message(tree.tree.tree, 14),
                        units::for_message(tree.tree.name, 22), units::for_message(tree.tree.species, 20),
                        tree.tree.day.empty() ? "never" : tree.tree.day, tree.due ? std::to_string(tree.due->seasons_since) : "",
                        said(tree), best.said(tree.tree.tree));
  if (trees.empty()) text = "No tree of the book has been treated in full yet.\n";
  if (never > 0) text += fmt::format("{} more {} never been treated in full.\n", never, never == 1 ? "tree has" : "trees have");
  return text;
}

std::string json_of(const std::vector<DueTree>& trees, const BestDays& best, long long never) {
  Json list = Json::array();
  for (const DueTree& tree : trees) {
    Json one{{"tree", tree.tree.tree},
             {"name", tree.tree.name},
             {"species", tree.tree.species},
             {"site", tree.tree.site},
             {"urgent", tree.urgent}};
    one["last_treated_on"] = tree.tree.day.empty() ? Json(nullptr) : Json(tree.tree.day);
    one["seasons_since"] = tree.due ? Json(tree.due->seasons_since) : Json(nullptr);
    one["due_by"] = tree.due ? Json(units::to_text(tree.due->by)) : Json(nullptr);
    one["overdue"] = tree.due && tree.due->overdue;
    const BestDay* day = best.of(tree.tree.tree);
    one["best_day"] = day == nullptr ? Json(nullptr) : Json{{"date", day->date}, {"verdict", day->verdict}, {"made_at", day->made_at}};
    list.push_back(std::move(one));
  }
  return Json{{"trees", list}, {"never_treated", never}}.dump(2) + "\n";
}

std::string csv_of(const std::vector<DueTree>& trees) {
  std::string text = "tree,name,species,site,last_treated_on,seasons_since,due_by,overdue,urgent\n";
  for (const DueTree& tree : trees)
    text += fmt::format("{},{},{},{},{},{},{},{},{}\n", csv::for_sheet(tree.tree.tree), csv::for_sheet(tree.tree.name),
                        csv::for_sheet(tree.tree.species), csv::for_sheet(tree.tree.site), tree.tree.day,
                        tree.due ? std::to_string(tree.due->seasons_since) : "", tree.due ? units::to_text(tree.due->by) : "",
                        tree.due && tree.due->overdue ? "yes" : "no", tree.urgent ? "yes" : "no");
  return text;
}

}  // namespace

std::vector<DueTree> due_trees(store::Book& book, const Common& common, std::size_t limit) {
  const book::OfficeTerms& terms = common.models.office;
  const LocalDay today = units::ZoneOffsets::utc().day_of(common.now);
  const auto treated = book.longest_treated(limit);
  int first = year_of(today);
  for (const auto& tree : treated) first = std::min(first, year_of(units::parse_day(tree.day).value_or(today)));
  SeasonEnds ends{common.models.species.front().leaves, first - 1, year_of(today) + 25};

  std::vector<DueTree> all;
  std::set<std::string> told;
  const auto add = [&](const store::LastTreated& tree, bool urgent) {
    if (!told.insert(tree.tree).second) return;
    DueTree one{tree, std::nullopt, urgent};
    if (const auto day = units::parse_day(tree.day))
      one.due = book::due(*day, today, tree.keeps_seasons.value_or(terms.keeps_seasons), ends.at(tree.latitude_deg),
                          terms.done_by_day_of_year, tree.latitude_deg < 0.0);
    all.push_back(std::move(one));
  };
  for (const auto& tree : book.cannot_wait(units::to_text(today - days{terms.disease_stays_days}))) add(tree, true);
  for (const auto& tree : treated) add(tree, false);
  // A tree treated this season is safe, whatever was seen nearby.
  for (DueTree& tree : all) tree.urgent = tree.urgent && !(tree.due && tree.due->seasons_since == 0);
  std::ranges::stable_sort(all, [](const DueTree& a, const DueTree& b) {
    if (a.urgent != b.urgent) return a.urgent;
    const auto by = [](const DueTree& tree) { return tree.due ? tree.due->by : LocalDay{}; };
    return by(a) < by(b);
  });
  if (limit != 0 && all.size() > limit) all.resize(limit);
  return all;
}

Outcome due_command(const Common& common, const DueRequest& request) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  std::vector<DueTree> trees;
  long long never = 0;
  book->at_one_moment([&] {
    trees = due_trees(*book, common, request.limit);
    never = book->never_treated();
  });
  const BestDays best = BestDays::read(common);
  outcome.out = common.format == Format::json  ? json_of(trees, best, never)
                : common.format == Format::csv ? csv_of(trees)
                                               : text_of(trees, best, never);
  return outcome;
}

}  // namespace app
