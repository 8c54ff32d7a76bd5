#include "app/plan_keep.h"

#include "app/open_book.h"
#include "app/plan_why.h"
#include "app/record_faults.h"

namespace app {
namespace {

using book::Edit;

void put_slot(const PlanBook& book, const char* way, const std::optional<Slot>& slot, book::Fields& fields) {
  if (!slot) return;
  const std::string begin = way;
  fields[begin + "_day"] = units::to_text(slot->day);
  fields[begin + "_crew"] = book.crews[static_cast<std::size_t>(slot->crew)].id;
  if (slot->arrive_h) fields[begin + "_start"] = clock24(*slot->arrive_h);
}

// The jobs that a crew's day held before the plan.
std::string jobs_of(const PlanBook& book, const Slot& slot) {
  const plan::CrewDay when{static_cast<int>((slot.day - book.first_day).count()), slot.crew};
  std::string ids;
  for (std::size_t task = 0; task < book.tasks.size(); ++task)
    if (book.office.tasks[task].promised == when) ids += (ids.empty() ? "" : " ") + book.tasks[task].id();
  for (const LeftAlone& left : book.left) ids += (ids.empty() ? "" : " ") + left.job;
  return ids;
}

// Whether another desk changed the job while the plan was made.
bool is_stale(store::Book& book, const PlanTask& task) {
  const auto now = task.job ? book.find("job", task.job->id) : std::nullopt;
  return task.job && (!now || now->removed || now->version != task.job->version);
}

Edit edit_of(const PlanBook& book, const Move& move) {
  const PlanTask& task = book.tasks[static_cast<std::size_t>(move.task)];
  Edit edit{Edit::What::add, "move", ""};
  edit.set = {{"tree", task.tree.id},
              {"state", "open"},
              {"decide_by", units::to_text(move.decide_by)},
              {"may_wait", move.may_wait ? "yes" : "no"},
              {"why", move.call.empty() ? move.why : move.why + "\n" + move.call}};
  if (task.job) {
    edit.set["job"] = task.job->id;
    edit.set["job_version"] = std::to_string(task.job->version);
  }
  std::string needs;
  for (const int other : move.needs) needs += (needs.empty() ? "" : " ") + book.tasks[static_cast<std::size_t>(other)].id();
  if (!needs.empty()) edit.set["needs"] = needs;
  if (move.to) edit.set["day_jobs"] = jobs_of(book, *move.to);
  put_slot(book, "from", move.from, edit.set);
  put_slot(book, "to", move.to, edit.set);
  edit.group = 1;
  edit.follows = {{"proposal", "proposal"}};
  return edit;
}

}  // namespace

void keep_proposal(const Common& common, const PlanBook& plan, Proposal& told, Outcome& outcome) {
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return;
  for (const Move& move : told.moves)
    if (const PlanTask& task = plan.tasks[static_cast<std::size_t>(move.task)]; is_stale(*book, task))
      outcome.warn("job " + task.id() + " was changed while this plan was made: its move is left out; make a new plan");
  std::erase_if(told.moves, [&](const Move& move) { return is_stale(*book, plan.tasks[static_cast<std::size_t>(move.task)]); });
  std::vector<Edit> edits;
  for (const book::Record& open : book->list("proposal", {.equal = {{"state", "open"}}}))
    edits.push_back({Edit::What::change, "proposal", open.id, {{"state", "closed"}}, {}, 1});
  Edit head{Edit::What::add, "proposal", ""};
  head.set = {{"made_at", units::to_text(common.now)},
              {"state", told.moves.empty() ? "closed" : "open"},
              {"worth_h", book::shortest(told.schedule.objective)},
              {"bound_h", book::shortest(told.schedule.bound)}};
  if (!plan.days.weather.empty() && plan.days.weather.front().issued_at)
    head.set["forecast_at"] = units::to_text(*plan.days.weather.front().issued_at);
  head.group = 1;
  edits.push_back(head);
  const std::size_t first = edits.size();
  for (const Move& move : told.moves) edits.push_back(edit_of(plan, move));
  const auto applied = book->apply(edits, author(common, "plan"), store::Mode::all_or_nothing);
  tell_refusals(
      applied, [](std::size_t) { return std::string{"plan: "}; }, outcome);
  if (!applied.kept) return;
  told.id = applied.written[first - 1].after.id;
  for (std::size_t i = 0; i < told.moves.size(); ++i) told.moves[i].id = applied.written[first + i].after.id;
}

}  // namespace app
