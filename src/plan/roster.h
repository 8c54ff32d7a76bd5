// A plan while it is being changed: who goes where on each crew's day, kept within every rule at all times.
#pragma once
#include <vector>

#include "plan/column.h"

namespace plan {

class Roster {
 public:
  // The locked jobs alone.
  explicit Roster(const Ground& ground);
  // The promises of the instance as far as they can be kept: locked jobs, then by gain.
  static Roster promised(const Ground& ground);
  // Requires a plan that keeps every rule.
  static Roster of(const Ground& ground, const Plan& plan);

  // Requires columns of different slots and jobs that fit the rigs, and one for each slot with locked jobs.
  static Roster of(const Ground& ground, const std::vector<Column>& columns);

  [[nodiscard]] const Ground& ground() const { return *ground_; }
  // Recounted in full now and then by the caller's choice; else the sum of changes.
  [[nodiscard]] double objective() const { return objective_; }
  [[nodiscard]] const Stops& stops(int slot) const { return slots_[at(slot)].stops; }
  [[nodiscard]] int rigs_in(int slot) const { return slots_[at(slot)].rigs; }  // rig jobs
  // -1: left out.
  [[nodiscard]] int slot_of(int job) const { return slot_of_[at(job)]; }
  [[nodiscard]] Plan plan() const;

  // What a slot would be with other stops.
  struct Change {
    int slot = -1;
    Stops stops;
    double tour_h = 0.0;
    double extra = 0.0;
    int rigs = 0;  // how many rig jobs
  };
  // Whether the slot's own rules hold with these stops (hours, count); fills `change`.
  [[nodiscard]] bool try_stops(int slot, const Stops& stops, Change& change) const;
  // What the change saves of driving and of the instance's own rule; negative where both cost more.
  [[nodiscard]] double saved(const Change& change) const {
    const auto& now = slots_[at(change.slot)];
    return ground_->travel_per_h() * (now.tour_h - change.tour_h) + now.extra - change.extra;
  }
  // Whether the rigs of the days suffice after the changes, which concern different slots.
  template <std::size_t n>
  [[nodiscard]] bool rigs_suffice(const std::array<const Change*, n>& changes) const;
  // Makes the change. The caller sees to rigs_suffice and to jobs leaving their old slots, and states what the objective gains.
  void make(const Change& change);
  void book(int job, int slot) { slot_of_[at(job)] = slot; }
  void add_to_objective(double delta) { objective_ += delta; }
  void recount();

 private:
  static std::size_t at(int index) { return static_cast<std::size_t>(index); }
  struct SlotState {
    Stops stops;
    double tour_h = 0.0;
    double extra = 0.0;
    int rigs = 0;
  };

  const Ground* ground_;
  std::vector<SlotState> slots_;
  std::vector<int> slot_of_;
  std::vector<int> rigs_out_;  // by day
  double objective_ = 0.0;
};

template <std::size_t n>
bool Roster::rigs_suffice(const std::array<const Change*, n>& changes) const {
  for (std::size_t i = 0; i < n; ++i) {
    if (changes[i] == nullptr || changes[i]->rigs == 0) continue;
    const int day = ground_->day_of(changes[i]->slot);
    int out = rigs_out_[at(day)];
    for (const Change* change : changes)
      if (change != nullptr && ground_->day_of(change->slot) == day)
        out += (change->rigs > 0 ? 1 : 0) - (slots_[at(change->slot)].rigs > 0 ? 1 : 0);
    if (out > ground_->rigs(day)) return false;
  }
  return true;
}

}  // namespace plan
