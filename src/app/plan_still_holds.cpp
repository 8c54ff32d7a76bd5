#include "app/plan_still_holds.h"

#include <algorithm>
#include <sstream>

#include "app/lawful_report.h"
#include "book/crew_day.h"

namespace app {
namespace {

using book::Record;

bool goes(store::Book& book, const Record& crew, units::LocalDay day) {
  const book::People people{book.list("member", {.equal = {{"crew", crew.id}}}), {}, book.list("day_off", {})};
  return book::goes_out(crew, people.days_off, day) && (people.members.empty() || !book::at_work(people, crew.id, day).members.empty());
}

bool names(const std::string& ids, const std::string& id) {
  std::istringstream all{ids};
  for (std::string one; all >> one;)
    if (one == id) return true;
  return false;
}

// A job of that crew's day which was not there when the move was proposed, and which the plan knows nothing of.
std::optional<Record> newcomer(store::Book& book, const Record& move, std::vector<Record> with) {
  for (Record& accepted : book.list("move", {.equal = {{"proposal", move.text("proposal")}, {"state", "accepted"}}}))
    with.push_back(std::move(accepted));
  // It comes, or goes, by the same plan.
  const auto is_planned = [&](const Record& job) {
    return std::ranges::any_of(with, [&](const Record& one) {
      return one.text("job").empty() ? one.text("tree") == job.text("tree") : one.text("job") == job.id;
    });
  };
  for (Record& job : book.list("job", {.equal = {{"day", move.text("to_day")}, {"crew", move.text("to_crew")}}})) {
    const std::string& state = job.text("state");
    const bool open = state == "wanted" || state == "confirmed" || state == "under_way";
    if (open && job.id != move.text("job") && !names(move.text("day_jobs"), job.id) && !is_planned(job)) return std::move(job);
  }
  return std::nullopt;
}

std::optional<std::string> rule_not_met(store::Book& book, const Common& common, const Record& move) {
  const auto before = move.text("job").empty() ? std::nullopt : book.find("job", move.text("job"));
  Record after = before.value_or(Record{"job", ""});
  after.fields["tree"] = move.text("tree");
  for (const auto& [field, value] :
       {std::pair{"day", move.text("to_day")}, {"crew", move.text("to_crew")}, {"start", move.text("to_start")}})
    after.fields[field] = value;
  if (before) {
    const auto lines = reopened(book, common, *before, after);
    return lines.empty() ? std::nullopt : std::optional{lines.front()};
  }
  return book::may_go(findings_of(book, common, after)) ? std::nullopt : std::optional<std::string>{"a rule of the owner's is not met"};
}

}  // namespace

std::optional<units::Fault> no_longer(store::Book& book, const Common& common, const Record& move, const std::vector<Record>& with) {
  const auto day = move.day("to_day");
  if (!day) return std::nullopt;  // it loses its day: nothing there can be in the way
  const std::string where = "move " + move.id, again = ": make a new plan";
  const auto crew = book.find("crew", move.text("to_crew"));
  if (!crew || crew->removed || !goes(book, *crew, *day))
    return units::Fault{where, "crew " + move.text("to_crew") + " on " + units::to_text(*day),
                        "expected a crew that works that day" + again};
  const auto tree = book.find("tree", move.text("tree"));
  const auto site = tree ? book.find("site", tree->text("site")) : std::nullopt;
  if (site && !book::is_one_of(site->text("work_days"), *day))
    return units::Fault{where, units::to_text(*day), "expected a day that suits the site, " + site->text("work_days") + again};
  if (const auto other = newcomer(book, move, with))
    return units::Fault{where, "job " + other->id + " was booked there since", "expected the crew's day as it was proposed" + again};
  if (const auto rule = rule_not_met(book, common, move))
    return units::Fault{where, *rule, "expected a day on which it may lawfully go" + again};
  return std::nullopt;
}

}  // namespace app
