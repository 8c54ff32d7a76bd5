// The problem laid out for search: what each job would bring on each crew's day, drives in hours, and the crew's days by one index.
// A plan's objective is left_out() plus the gains of its booked jobs less its driving.
#pragma once
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "plan/instance.h"

namespace plan {

// The stops of one crew's day in no order; `job` holds `count` entries.
struct Stops {
  std::array<int, most_stops> job{};
  int count = 0;

  [[nodiscard]] std::span<const int> jobs() const { return {job.data(), static_cast<std::size_t>(count)}; }
  // Requires count < most_stops.
  void add(int index) { job[static_cast<std::size_t>(count++)] = index; }
  // Requires that it is there.
  void remove(int index);
  void replace(int index, int by);
};

// A crew's day on which a job could be done, alone at least.
struct Choice {
  int slot = 0;
  double gain = 0.0;  // over leaving it out; above the least drive it can cost
};

class Ground {
 public:
  // Requires a sound instance (plan/sound.h), which must outlive this.
  explicit Ground(const Instance& instance);

  [[nodiscard]] const Instance& instance() const { return instance_; }
  [[nodiscard]] int jobs() const { return static_cast<int>(instance_.jobs.size()); }
  [[nodiscard]] int slots() const { return static_cast<int>(slot_hours_.size()); }
  [[nodiscard]] int day_of(int slot) const { return slot % instance_.days; }
  [[nodiscard]] int crew_of(int slot) const { return slot / instance_.days; }
  [[nodiscard]] int slot_of(CrewDay when) const { return when.crew * instance_.days + when.day; }
  [[nodiscard]] double slot_hours(int slot) const { return slot_hours_[at(slot)]; }
  [[nodiscard]] int max_stops() const { return instance_.max_stops; }
  [[nodiscard]] double travel_per_h() const { return instance_.worth.travel_per_h; }
  [[nodiscard]] double stop_h() const { return instance_.travel.stop_h; }
  [[nodiscard]] int rigs(int day) const { return instance_.rigs_per_day[at(day)]; }

  [[nodiscard]] bool locked(int job) const { return locked_[at(job)] != 0; }
  [[nodiscard]] bool rig(int job) const { return rig_[at(job)] != 0; }
  // The jobs that stay in this slot whatever happens.
  [[nodiscard]] const Stops& locked_in(int slot) const { return locked_in_[at(slot)]; }
  // Every slot worth considering for a job that is not locked.
  [[nodiscard]] const std::vector<Choice>& choices(int job) const { return choices_[at(job)]; }
  // The jobs, not locked, that have this slot among their choices; `Choice::slot` is the job here.
  [[nodiscard]] const std::vector<Choice>& candidates(int slot) const { return candidates_[at(slot)]; }

  [[nodiscard]] double hours(int job, int day) const { return hours_[at(job) * at(instance_.days) + at(day)]; }
  // What booking the job here brings over leaving it out, before driving.
  [[nodiscard]] double gain(int job, int slot) const;
  [[nodiscard]] bool may(int job, int slot) const { return may_[at(job) * slot_hours_.size() + at(slot)] != 0; }
  // The objective of a plan that books nothing: what the broken promises cost.
  [[nodiscard]] double left_out() const { return left_out_; }

  [[nodiscard]] double drive_h(int from, int to) const { return leg(job_at_[at(from)], job_at_[at(to)]); }
  [[nodiscard]] double depot_h(int crew, int job) const { return leg(depot_at_[at(crew)], job_at_[at(job)]); }
  // The shortest way from the depot past all stops and back; 0 without stops.
  [[nodiscard]] double tour_h(int crew, const Stops& stops) const;
  // The hours on site of all stops.
  [[nodiscard]] double on_site_h(const Stops& stops, int day) const;
  // What the instance's own rule takes off a crew's day with these stops; infinite where it cannot be worked.
  [[nodiscard]] double extra(int slot, const Stops& stops) const {
    return instance_.rule && stops.count > 0 ? instance_.rule({day_of(slot), crew_of(slot)}, stops.jobs()) : 0.0;
  }
  // Site hours and tour keep within the crew's hours, or there is but one stop and it is locked.
  [[nodiscard]] bool fits(int slot, const Stops& stops, double on_site_h, double tour_h) const;

 private:
  static std::size_t at(int index) { return static_cast<std::size_t>(index); }
  // Places are kept in hours of driving, so that a leg is a distance.
  [[nodiscard]] double leg(Point a, Point b) const {
    const double dx = a.x_km - b.x_km;
    const double dy = a.y_km - b.y_km;
    return std::sqrt(dx * dx + dy * dy) + instance_.travel.stop_h;
  }
  void find_choices();

  const Instance& instance_;
  std::vector<double> slot_hours_;
  std::vector<double> hours_;
  std::vector<double> day_gain_;  // job by day, before the crew counts
  std::vector<Point> job_at_;
  std::vector<Point> depot_at_;
  std::vector<std::uint8_t> locked_;
  std::vector<std::uint8_t> rig_;
  std::vector<std::uint8_t> may_;
  std::vector<Stops> locked_in_;
  std::vector<std::vector<Choice>> choices_;
  std::vector<std::vector<Choice>> candidates_;
  double left_out_ = 0.0;
};

}  // namespace plan
