#include "plan/office_instance.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace plan {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

constexpr double never_h = 1e4;  // longer than any crew's day

// Whether some crew may work this task beside another one that day.
bool may_be_beside(const Office& office, std::size_t index, int day) {
  const Task& task = office.tasks[index];
  if (task.in_sight < 0) return false;
  const bool company = std::ranges::count(office.tasks, task.in_sight, &Task::in_sight) > 1;
  return company && std::ranges::any_of(office.teams, [&](const Team& team) { return team.pumps[at(day)] > 1; });
}

// The least that is kept free for a begin whose chance does not fall below `least`.
double least_hours(const Begin& begin, double least) {
  constexpr double some_h = 1e-3;
  if (begin.takes_h.empty()) return begin.on_site_h;
  const auto share = static_cast<std::size_t>(std::max(0.0, std::ceil(least * static_cast<double>(begin.takes_h.size())) - 1.0));
  return std::min(begin.on_site_h, least > 0.0 ? std::max(some_h, begin.takes_h[std::min(share, begin.takes_h.size() - 1)]) : some_h);
}

Job job_of(const Office& office, std::size_t index) {
  const Task& task = office.tasks[index];
  Job job;
  job.at = task.at;
  job.weight = task.worth_h;
  job.earliest = task.earliest;
  job.latest = task.latest;
  job.rig = true;  // no tree drinks without a pump
  job.locked = task.locked;
  job.promised = task.promised;
  job.crews = task.teams;
  job.barred = task.barred;
  job.keep = task.keep;
  for (int day = 0; day < office.days; ++day) {
    const auto& begins = task.begins[at(day)];
    const Begin* best = best_begin(task, day);
    job.chance.push_back(best == nullptr ? 0.0 : best->chance);
    job.spent.push_back(best == nullptr ? 0.0 : best->spent_h + best->toll_h);
    if (best == nullptr) {
      job.hours.push_back(never_h);
      continue;
    }
    // The least that it takes of a crew's day: what the clock then allows, the rule tells.
    double shortest_h = never_h;
    for (const Begin& begin : begins) shortest_h = std::min(shortest_h, least_hours(begin, least_chance(task, day)));
    job.hours.push_back(may_be_beside(office, index, day) ? std::min(shortest_h, std::max(1e-3, task.before_h)) : shortest_h);
  }
  return job;
}

class Rule {
 public:
  Rule(const Office& office, std::shared_ptr<KnownDays> known) : office_(office), known_(std::move(known)) {}

  double operator()(CrewDay when, std::span<const int> tasks) const {
    std::array<int, most_stops> stops{-1, -1, -1, -1};
    std::ranges::copy(tasks, stops.begin());
    std::ranges::sort(stops);
    const auto [known, is_new] = known_->try_emplace({when.day, when.crew, stops}, 0.0);
    if (is_new) {
      const auto found = timetable(office_, when, tasks);
      known->second = found ? found->cost : std::numeric_limits<double>::infinity();
    }
    return known->second;
  }

 private:
  const Office& office_;
  std::shared_ptr<KnownDays> known_;
};

}  // namespace

Instance instance_of(const Office& office, std::shared_ptr<KnownDays> known) {
  Instance instance;
  instance.days = office.days;
  instance.rigs_per_day = office.rigs_per_day;
  instance.worth = office.worth;
  instance.travel = office.travel;
  for (const Team& team : office.teams) {
    Crew crew{team.depot, {}};
    double longest_h = 0.0;
    for (const Task& task : office.tasks) longest_h = std::max(longest_h, drive_h(office.travel, team.depot, task.at));
    for (int day = 0; day < office.days; ++day) {
      const double window_h = team.until_h[at(day)] - team.from_h[at(day)];
      // Driving to the first site and from the last is outside the hours on site.
      crew.hours.push_back(window_h > 0.0 ? window_h + team.overtime_h + 2.0 * longest_h : 0.0);
    }
    instance.crews.push_back(std::move(crew));
  }
  for (std::size_t index = 0; index < office.tasks.size(); ++index) instance.jobs.push_back(job_of(office, index));
  instance.rule = Rule{office, std::move(known)};
  return instance;
}

}  // namespace plan
