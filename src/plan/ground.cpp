#include "plan/ground.h"

#include <algorithm>
#include <cmath>

#include "plan/tour.h"

namespace plan {

namespace {
// Hours may be exceeded by so little without anybody noticing; half of what the referee allows for its own summing.
constexpr double rounding_h = 5e-7;
}  // namespace

void Stops::remove(int index) {
  const auto last = static_cast<std::size_t>(--count);
  for (auto& stop : job)
    if (stop == index) {
      stop = job[last];
      return;
    }
}

void Stops::replace(int index, int by) {
  for (std::size_t i = 0; i < static_cast<std::size_t>(count); ++i)
    if (job[i] == index) {
      job[i] = by;
      return;
    }
}

Ground::Ground(const Instance& instance) : instance_(instance) {
  const double hours_per_km = instance.travel.detour / instance.travel.speed_km_h;
  const auto scaled = [&](Point p) { return Point{p.x_km * hours_per_km, p.y_km * hours_per_km}; };
  for (const auto& crew : instance.crews) {
    depot_at_.push_back(scaled(crew.depot));
    slot_hours_.insert(slot_hours_.end(), crew.hours.begin(), crew.hours.end());
  }
  locked_in_.resize(slot_hours_.size());
  for (int index = 0; const auto& job : instance.jobs) {
    job_at_.push_back(scaled(job.at));
    hours_.insert(hours_.end(), job.hours.begin(), job.hours.end());
    locked_.push_back(job.locked ? 1 : 0);
    rig_.push_back(job.rig ? 1 : 0);
    if (job.locked) locked_in_[at(slot_of(*job.promised))].add(index);
    ++index;
    const bool tomorrow = job.promised && job.promised->day == 0;
    const double moved = !job.promised ? 0.0 : job.keep * (tomorrow ? instance.worth.move_tomorrow : instance.worth.move_day);
    const double dropped = job.promised ? moved + job.keep * instance.worth.drop : 0.0;
    left_out_ -= dropped;
    for (int day = 0; day < instance.days; ++day) {
      const double worth = job.weight * job.chance[at(day)] - instance.worth.late_per_day * job.weight * (day - job.earliest) -
                           (job.spent.empty() ? 0.0 : job.spent[at(day)]);
      day_gain_.push_back(worth + dropped - (job.promised && job.promised->day != day ? moved : 0.0));
    }
  }
  find_choices();
}

void Ground::find_choices() {
  choices_.resize(at(jobs()));
  candidates_.resize(slot_hours_.size());
  may_.resize(at(jobs()) * slot_hours_.size());
  for (int index = 0; index < jobs(); ++index) {
    if (locked(index)) continue;
    const Job& job = instance_.jobs[at(index)];
    for (int day = std::max(0, job.earliest); day <= std::min(instance_.days - 1, job.latest); ++day) {
      for (const int crew : job.crews) {
        const int slot = slot_of({day, crew});
        const double worth = gain(index, slot);
        const double alone_h = 2.0 * depot_h(crew, index) + hours(index, day);
        // A further stop lengthens no tour by less than one leg's fixed time, so that below it the job only costs.
        if (may(index, slot) || alone_h > slot_hours(slot) + rounding_h || worth <= travel_per_h() * stop_h()) continue;
        if (rig(index) && rigs(day) == 0) continue;
        if (std::ranges::find(job.barred, CrewDay{day, crew}) != job.barred.end()) continue;
        Stops alone;
        alone.add(index);
        if (!std::isfinite(extra(slot, alone))) continue;
        may_[at(index) * slot_hours_.size() + at(slot)] = 1;
        choices_[at(index)].push_back({slot, worth});
        candidates_[at(slot)].push_back({index, worth});
      }
    }
  }
}

double Ground::gain(int job, int slot) const {
  const int day = day_of(slot);
  const auto& promised = instance_.jobs[at(job)].promised;
  const bool other_crew = promised && promised->day == day && promised->crew != crew_of(slot);
  const double keep = instance_.jobs[at(job)].keep;
  return day_gain_[at(job) * at(instance_.days) + at(day)] - (other_crew ? keep * instance_.worth.move_crew : 0.0);
}

double Ground::tour_h(int crew, const Stops& stops) const {
  const auto& s = stops.job;
  const auto depot = [&](std::size_t i) { return depot_h(crew, s[i]); };
  const auto drive = [&](std::size_t a, std::size_t b) { return drive_h(s[a], s[b]); };
  switch (stops.count) {
    case 0:
      return 0.0;
    case 1:
      return 2.0 * depot(0);
    case 2:
      return tour_of_two(depot(0), drive(0, 1), depot(1));
    case 3:
      return tour_of_three(depot(0), depot(1), depot(2), drive(0, 1), drive(0, 2), drive(1, 2));
    default:
      break;
  }
  Legs legs;
  for (std::size_t a = 0; a < 4; ++a) {
    legs.depot[a] = depot(a);
    for (std::size_t b = 0; b < a; ++b) legs.between[a][b] = legs.between[b][a] = drive(a, b);
  }
  return tour_of_four(legs);
}

double Ground::on_site_h(const Stops& stops, int day) const {
  double sum = 0.0;
  for (const int job : stops.jobs()) sum += hours(job, day);
  return sum;
}

bool Ground::fits(int slot, const Stops& stops, double on_site_h, double tour_h) const {
  if (stops.count > max_stops()) return false;
  return on_site_h + tour_h <= slot_hours(slot) + rounding_h || (stops.count == 1 && locked(stops.job[0]));
}

}  // namespace plan
