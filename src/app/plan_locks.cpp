#include "app/plan_locks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "app/words.h"
#include "plan/timetable.h"

namespace app {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// Locked tasks by the day and crew that hold them.
class Locked {
 public:
  explicit Locked(const PlanBook& book) : office_(book.office) {
    for (int task = 0; task < static_cast<int>(book.tasks.size()); ++task)
      if (office_.tasks[at(task)].locked) add(task);
  }

  void add(int task) { days_[{office_.tasks[at(task)].promised->day, office_.tasks[at(task)].promised->crew}].push_back(task); }

  [[nodiscard]] const std::map<std::pair<int, int>, std::vector<int>>& days() const { return days_; }

  [[nodiscard]] int rigs(int day) const {
    return static_cast<int>(std::ranges::count_if(days_, [&](const auto& one) { return one.first.first == day; }));
  }

  // Whether a task that is not locked could be: its crew works there, may do it, and its day holds all of them.
  [[nodiscard]] bool holds(int task) const {
    const plan::Task& one = office_.tasks[at(task)];
    const plan::CrewDay when = *one.promised;
    if (std::ranges::find(one.barred, when) != one.barred.end()) return false;
    const auto found = days_.find({when.day, when.crew});
    if (found == days_.end() && rigs(when.day) >= office_.rigs_per_day[at(when.day)]) return false;
    std::vector<int> together = found == days_.end() ? std::vector<int>{} : found->second;
    together.push_back(task);
    return together.size() <= at(plan::most_stops) && plan::timetable(office_, when, together).has_value();
  }

 private:
  const plan::Office& office_;
  std::map<std::pair<int, int>, std::vector<int>> days_;
};

// One begin is left of the promised day: what was said.
void lock(plan::Task& task) {
  task.locked = true;
  auto& begins = task.begins[at(task.promised->day)];
  if (task.promised_at_h)
    begins = {
        *std::ranges::min_element(begins, {}, [&](const plan::Begin& begin) { return std::abs(begin.arrive_h - *task.promised_at_h); })};
}

}  // namespace

void hold_settled(PlanBook& book) {
  Locked locked{book};
  for (int task = 0; task < static_cast<int>(book.tasks.size()); ++task) {
    if (!book.tasks[at(task)].settled || book.office.tasks[at(task)].locked || !locked.holds(task)) continue;
    lock(book.office.tasks[at(task)]);
    locked.add(task);
  }
}

bool locks_can_be_kept(const PlanBook& book, Outcome& outcome) {
  const Locked locked{book};
  bool kept = true;
  const auto refuse = [&](std::pair<int, int> when, const std::vector<int>& tasks, const std::string& found, const std::string& expected) {
    std::string jobs;
    for (const int task : tasks) jobs += (jobs.empty() ? "" : ", ") + book.tasks[at(task)].id();
    outcome.refuse({fmt::format("jobs {}: locked on {} with {}", jobs, words::day(book.day(when.first)), book.crew_name(when.second)),
                    found, expected + ": unlock one of them"});
    kept = false;
  };
  std::vector<int> rigs(book.office.rigs_per_day.size(), 0);
  for (const auto& [when, tasks] : locked.days()) {
    if (tasks.size() > 1 && (tasks.size() > at(plan::most_stops) || !plan::timetable(book.office, {when.first, when.second}, tasks)))
      refuse(when, tasks, "", "expected jobs that its hours allow on one day");
    const int works = book.office.rigs_per_day[at(when.first)];
    if (++rigs[at(when.first)] > works)
      refuse(when, tasks, fmt::format("{} rigs work that day", works), "expected one for each crew with locked jobs");
  }
  return kept;
}

}  // namespace app
