#include "plan/roster.h"

#include <algorithm>
#include <cmath>

namespace plan {

Roster::Roster(const Ground& ground)
    : ground_(&ground), slots_(at(ground.slots())), slot_of_(at(ground.jobs()), -1), rigs_out_(at(ground.instance().days), 0) {
  for (int slot = 0; slot < ground.slots(); ++slot) {
    const Stops& stops = ground.locked_in(slot);
    if (stops.count == 0) continue;
    Change change;
    (void)try_stops(slot, stops, change);
    make(change);
    for (const int job : stops.jobs()) book(job, slot);
  }
  recount();
}

Roster Roster::promised(const Ground& ground) {
  Roster roster(ground);
  struct Wish {
    double gain;
    int job;
    int slot;
  };
  std::vector<Wish> wishes;
  for (int job = 0; job < ground.jobs(); ++job) {
    const auto& promised = ground.instance().jobs[at(job)].promised;
    if (!promised || ground.locked(job)) continue;
    const int slot = ground.slot_of(*promised);
    if (ground.may(job, slot)) wishes.push_back({ground.gain(job, slot), job, slot});
  }
  std::ranges::stable_sort(wishes, std::ranges::greater{}, &Wish::gain);
  for (const auto& wish : wishes) {
    Stops stops = roster.stops(wish.slot);
    if (stops.count == ground.max_stops()) continue;
    stops.add(wish.job);
    Change change;
    if (!roster.try_stops(wish.slot, stops, change) || !roster.rigs_suffice<1>({&change})) continue;
    if (wish.gain + roster.saved(change) <= 0.0) continue;
    roster.make(change);
    roster.book(wish.job, wish.slot);
  }
  roster.recount();
  return roster;
}

Roster Roster::of(const Ground& ground, const Plan& plan) {
  std::vector<Stops> stops(at(ground.slots()));
  for (int job = 0; job < ground.jobs(); ++job)
    if (const auto& booked = plan[at(job)]) stops[at(ground.slot_of(*booked))].add(job);
  std::vector<Column> columns;
  for (int slot = 0; slot < ground.slots(); ++slot)
    if (stops[at(slot)].count > 0) columns.push_back(column_of(ground, slot, stops[at(slot)]));
  return of(ground, columns);
}

Roster Roster::of(const Ground& ground, const std::vector<Column>& columns) {
  Roster roster(ground);
  for (const auto& column : columns) {
    Change change;
    (void)roster.try_stops(column.slot, column.stops, change);
    roster.make(change);
    for (const int job : column.stops.jobs()) roster.book(job, column.slot);
  }
  roster.recount();
  return roster;
}

Plan Roster::plan() const {
  Plan plan(slot_of_.size());
  for (std::size_t job = 0; job < plan.size(); ++job)
    if (slot_of_[job] >= 0) plan[job] = CrewDay{ground_->day_of(slot_of_[job]), ground_->crew_of(slot_of_[job])};
  return plan;
}

bool Roster::try_stops(int slot, const Stops& stops, Change& change) const {
  const double on_site_h = ground_->on_site_h(stops, ground_->day_of(slot));
  // The tour is the dear part; most candidates fail on hours alone.
  if (stops.count > 1 && on_site_h > ground_->slot_hours(slot)) return false;
  change.slot = slot;
  change.stops = stops;
  change.tour_h = ground_->tour_h(ground_->crew_of(slot), stops);
  if (!ground_->fits(slot, stops, on_site_h, change.tour_h) && stops.count > 0) return false;
  change.extra = ground_->extra(slot, stops);
  if (!std::isfinite(change.extra)) return false;
  change.rigs = 0;
  for (const int job : stops.jobs()) change.rigs += ground_->rig(job) ? 1 : 0;
  return true;
}

void Roster::make(const Change& change) {
  auto& slot = slots_[at(change.slot)];
  rigs_out_[at(ground_->day_of(change.slot))] += (change.rigs > 0 ? 1 : 0) - (slot.rigs > 0 ? 1 : 0);
  slot = {change.stops, change.tour_h, change.extra, change.rigs};
}

void Roster::recount() {
  objective_ = ground_->left_out();
  for (int slot = 0; slot < ground_->slots(); ++slot) {
    const auto& state = slots_[at(slot)];
    objective_ -= ground_->travel_per_h() * state.tour_h + state.extra;
    for (const int job : state.stops.jobs()) objective_ += ground_->gain(job, slot);
  }
}

}  // namespace plan
