#include "plan/schedule.h"

#include <algorithm>

#include "plan/solve.h"

namespace plan {

const Visit* Schedule::visit(int task) const {
  const auto& booked = plan[static_cast<std::size_t>(task)];
  if (!booked) return nullptr;
  const auto day = days.find({booked->day, booked->crew});
  if (day == days.end()) return nullptr;
  const auto found = std::ranges::find(day->second.visits, task, &Visit::task);
  return found == day->second.visits.end() ? nullptr : &*found;
}

units::Result<Schedule> schedule(const Office& office, const Effort& effort, std::shared_ptr<KnownDays> known) {
  const Instance instance = instance_of(office, known);
  auto answer = solve(instance, effort);
  if (!answer) return tl::make_unexpected(answer.error());
  Schedule found{std::move(answer->plan), {}, answer->objective, answer->bound, std::move(known)};
  std::map<std::pair<int, int>, std::vector<int>> stops;
  for (std::size_t task = 0; task < found.plan.size(); ++task)
    if (const auto& booked = found.plan[task]) stops[{booked->day, booked->crew}].push_back(static_cast<int>(task));
  for (const auto& [when, tasks] : stops)
    if (auto day = timetable(office, {when.first, when.second}, tasks)) found.days.emplace(when, std::move(*day));
  return found;
}

}  // namespace plan
