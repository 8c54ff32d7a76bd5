#include "plan/part.h"

#include <algorithm>
#include <array>

namespace plan {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}  // namespace

Part part_of(const Roster& roster, const std::vector<int>& slots) {
  const Ground& ground = roster.ground();
  const Instance& whole = ground.instance();
  Part part;
  part.instance.days = whole.days;
  part.instance.max_stops = whole.max_stops;
  part.instance.rigs_per_day = whole.rigs_per_day;
  part.instance.worth = whole.worth;
  part.instance.travel = whole.travel;
  std::vector<std::uint8_t> inside(at(ground.slots()), 0);
  for (const int slot : slots) inside[at(slot)] = 1;
  part.instance.crews = whole.crews;
  for (int slot = 0; slot < ground.slots(); ++slot) {
    if (inside[at(slot)] != 0) continue;
    part.instance.crews[at(ground.crew_of(slot))].hours[at(ground.day_of(slot))] = 0.0;
    if (roster.rigs_in(slot) > 0) --part.instance.rigs_per_day[at(ground.day_of(slot))];
  }
  for (int job = 0; job < ground.jobs(); ++job) {
    const int slot = roster.slot_of(job);
    const auto& choices = ground.choices(job);
    const bool in = slot >= 0 ? inside[at(slot)] != 0
                              : std::ranges::any_of(choices, [&](const Choice& choice) { return inside[at(choice.slot)] != 0; });
    if (!in) continue;
    part.jobs.push_back(job);
    part.instance.jobs.push_back(whole.jobs[at(job)]);
    part.now.push_back(slot >= 0 ? std::optional(CrewDay{ground.day_of(slot), ground.crew_of(slot)}) : std::nullopt);
  }
  if (whole.rule)
    part.instance.rule = [rule = whole.rule, jobs = part.jobs](CrewDay when, std::span<const int> stops) {
      std::array<int, most_stops> known{};
      for (std::size_t i = 0; i < stops.size(); ++i) known[i] = jobs[at(stops[i])];
      return rule(when, {known.data(), stops.size()});
    };
  return part;
}

Roster with_part(const Roster& roster, const std::vector<int>& slots, const Part& part, const Plan& plan) {
  const Ground& ground = roster.ground();
  std::vector<Stops> stops(at(ground.slots()));
  Roster changed = roster;
  for (std::size_t i = 0; i < part.jobs.size(); ++i) {
    const int slot = plan[i] ? ground.slot_of(*plan[i]) : -1;
    changed.book(part.jobs[i], slot);
    if (slot >= 0) stops[at(slot)].add(part.jobs[i]);
  }
  for (const int slot : slots) {
    Roster::Change change;
    (void)changed.try_stops(slot, stops[at(slot)], change);
    changed.make(change);
  }
  changed.recount();
  return changed;
}

std::vector<int> related_slots(const Roster& roster, int slot, int count, Dice& dice) {
  const Ground& ground = roster.ground();
  struct Related {
    double score;
    int slot;
  };
  std::vector<Related> all;
  for (int other = 0; other < ground.slots(); ++other) {
    if (ground.slot_hours(other) <= 0.0 && roster.stops(other).count == 0) continue;
    double trades = 2.0 * dice.share();
    for (const int job : roster.stops(slot).jobs()) trades += ground.may(job, other) ? 1.0 : 0.0;
    for (const int job : roster.stops(other).jobs()) trades += ground.may(job, slot) ? 1.0 : 0.0;
    all.push_back({other == slot ? 1e9 : trades, other});
  }
  std::ranges::stable_sort(all, std::ranges::greater{}, &Related::score);
  if (all.size() > at(count)) all.resize(at(count));
  std::vector<int> slots;
  for (const auto& related : all) slots.push_back(related.slot);
  std::ranges::sort(slots);
  return slots;
}

}  // namespace plan
