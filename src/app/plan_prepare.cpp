#include "app/plan_prepare.h"

#include <algorithm>
#include <set>

#include "app/plan_task.h"
#include "book/crew_day.h"

namespace app {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

class Idle {
 public:
  Idle(const Common& common, const PlanBook& book, const plan::Schedule& schedule) : common_(common), book_(book), schedule_(schedule) {}

  std::vector<Preparation> found() {
    for (int day = 0; day < book_.office.days; ++day)
      for (int crew = 0; crew < static_cast<int>(book_.crews.size()); ++crew)
        if (lost_its_day(day, crew)) fill(day, crew);
    return std::move(found_);
  }

 private:
  [[nodiscard]] bool lost_its_day(int day, int crew) const {
    const auto& team = book_.office.teams[at(crew)];
    return team.from_h[at(day)] < team.until_h[at(day)] && !schedule_.days.contains({day, crew}) &&
           std::ranges::any_of(book_.office.tasks, [&](const plan::Task& one) {
             return one.promised == plan::CrewDay{day, crew};
           });
  }

  // Digging asks for the locate ticket and the client's consent as treating does.
  [[nodiscard]] bool may_dig(int task, int day) const {
    const PlanTask& one = book_.tasks[at(task)];
    if (!book::is_one_of(one.site.text("work_days"), book_.day(day))) return false;
    const auto findings =
        findings_of_place(common_, book_.rules, book_.report(task), one, book_.day(day), common_.models.practice.day.earliest_start_h);
    return std::ranges::none_of(findings, [](const book::Finding& finding) {
      const std::string& needs = finding.rule.text("needs");
      return finding.state == book::Lawful::missing && (needs == "ticket" || needs == "consent");
    });
  }

  [[nodiscard]] double way_h(int task, int crew) const {
    return plan::drive_h(book_.office.travel, book_.office.teams[at(crew)].depot, book_.office.tasks[at(task)].at);
  }

  // Its own trees first, then the near ones.
  void fill(int day, int crew) {
    const auto& planning = common_.models.planning;
    std::vector<int> could;
    for (int task = 0; task < static_cast<int>(book_.tasks.size()); ++task) {
      const auto& booked = schedule_.plan[at(task)];
      if (booked && booked->day > day && booked->day <= day + planning.prepare_ahead_d && book_.tasks[at(task)].prepare_h > 0.0 &&
          !taken_.contains(task) && may_dig(task, day))
        could.push_back(task);
    }
    std::ranges::stable_sort(could, {}, [&](int task) { return std::pair{schedule_.plan[at(task)]->crew != crew, way_h(task, crew)}; });
    const auto& team = book_.office.teams[at(crew)];
    double left_h = team.until_h[at(day)] - team.from_h[at(day)];
    int kept = 0;
    for (const int task : could) {
      const double needs_h = book_.tasks[at(task)].prepare_h + 2.0 * way_h(task, crew);
      if (kept == planning.prepare_most || needs_h > left_h) continue;
      left_h -= needs_h;
      ++kept;
      taken_.insert(task);
      found_.push_back({crew, task, book_.day(day), book_.day(schedule_.plan[at(task)]->day), book_.tasks[at(task)].prepare_h});
    }
  }

  const Common& common_;
  const PlanBook& book_;
  const plan::Schedule& schedule_;
  std::set<int> taken_;
  std::vector<Preparation> found_;
};

}  // namespace

std::vector<Preparation> preparations(const Common& common, const PlanBook& book, const plan::Schedule& schedule) {
  return Idle{common, book, schedule}.found();
}

}  // namespace app
