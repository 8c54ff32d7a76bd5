#include "plan/refusal.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace plan {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}  // namespace

std::optional<Refusal> refusal(const Office& office, const Schedule& proposed, int task, const Effort& effort) {
  Office kept = office;
  Task& stays = kept.tasks[at(task)];
  const CrewDay there = *stays.promised;
  const std::array<int, 1> alone{task};
  const bool barred = std::ranges::find(stays.barred, there) != stays.barred.end();
  const bool may =
      std::ranges::find(stays.teams, there.crew) != stays.teams.end() && stays.earliest <= there.day && there.day <= stays.latest;
  if (barred || !may || !timetable(office, there, alone)) return std::nullopt;
  stays.locked = true;
  // At the hour that was promised, or the nearest.
  auto& begins = stays.begins[at(there.day)];
  if (stays.promised_at_h)
    begins = {*std::ranges::min_element(begins, {}, [&](const Begin& begin) { return std::abs(begin.arrive_h - *stays.promised_at_h); })};
  auto known = std::make_shared<KnownDays>();
  for (const auto& entry : *proposed.known)
    if (std::ranges::find(std::get<2>(entry.first), task) == std::get<2>(entry.first).end()) known->insert(known->end(), entry);
  auto again = schedule(kept, effort, std::move(known));
  if (!again) return std::nullopt;
  return Refusal{std::max(0.0, proposed.objective - again->objective), std::move(*again)};
}

std::vector<int> moves_needed(const Office& office, const Schedule& proposed, int task) {
  const auto& to = proposed.plan[at(task)];
  if (!to) return {};
  std::vector<int> leaving, all;
  for (int other = 0; other < static_cast<int>(office.tasks.size()); ++other) {
    const auto& promised = office.tasks[at(other)].promised;
    const bool was = promised && *promised == *to, comes = proposed.plan[at(other)] == *to;
    if (was && !comes) leaving.push_back(other);
    if (was || comes) all.push_back(other);
  }
  if (leaving.empty() || (all.size() <= at(most_stops) && timetable(office, *to, all))) return {};
  return leaving;
}

}  // namespace plan
