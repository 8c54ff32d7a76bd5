#include "plan/timetable.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace plan {
namespace {

constexpr double rounding_h = 1e-6;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

class Search {
 public:
  Search(const Office& office, CrewDay when, std::span<const int> tasks)
      : office_(office), team_(office.teams[at(when.crew)]), when_(when), tasks_(tasks.begin(), tasks.end()) {
    from_h_ = team_.from_h[at(when.day)];
    last_h_ = team_.until_h[at(when.day)] + team_.overtime_h;
  }

  std::optional<Timetable> run() {
    if (team_.from_h[at(when_.day)] < team_.until_h[at(when_.day)] && water_can_be_brought()) extend({}, 0.0, 0.0);
    if (!best_ && tasks_.size() == 1) best_ = as_booked();
    return best_;
  }

 private:
  [[nodiscard]] const Task& task(int index) const { return office_.tasks[at(index)]; }

  // More than the truck holds for one tree has to be fetched while its lines are under pressure and attended: by a second person.
  [[nodiscard]] bool water_can_be_brought() const {
    return !team_.tank_l || team_.people[at(when_.day)] > 1 ||
           std::ranges::none_of(tasks_, [&](int index) { return task(index).hauled_l > *team_.tank_l; });
  }

  void extend(const std::vector<Visit>& visits, double cost, double hauled_l) {
    if (best_ && cost >= best_->cost) return;
    if (visits.size() == tasks_.size()) return finish(visits, cost, hauled_l);
    for (const int next : tasks_) {
      if (std::ranges::find(visits, next, &Visit::task) != visits.end()) continue;
      const double needs_l = hauled_l + task(next).hauled_l;
      const Begin* best = best_begin(task(next), when_.day);
      for (const Begin& whole : task(next).begins[at(when_.day)]) {
        const Begin begin = until(whole, last_h_);
        if (begin.on_site_h <= 0.0 || begin.chance < least_chance(task(next), when_.day)) continue;
        const auto with = visit(visits, next, begin);
        if (!with) continue;
        // Of a tree worth little an early leave may save more work than it loses: no credit for that, the best begin bounds what it brings.
        const double lost = std::max(0.0, worth_of(task(next), *best) - worth_of(task(next), begin));
        extend(*with, cost + lost + hour_cost(task(next), begin), needs_l);
      }
    }
  }

  [[nodiscard]] double hour_cost(const Task& task, const Begin& begin) const {
    const bool stays = task.promised && task.promised->day == when_.day && task.promised_at_h;
    return stays && std::abs(begin.arrive_h - *task.promised_at_h) > same_hour_h ? task.keep * office_.terms.new_hour : 0.0;
  }

  // The visits with one more, or empty where it cannot begin then.
  [[nodiscard]] std::optional<std::vector<Visit>> visit(const std::vector<Visit>& visits, int next, const Begin& begin) const {
    if (begin.arrive_h < from_h_ - rounding_h) return std::nullopt;
    std::vector<Visit> all = visits;
    Visit added{next, begin.arrive_h, begin.arrive_h + begin.on_site_h, begin.chance};
    int running = 1;
    for (Visit& one : all) {
      if (one.leave_h + drive_h(office_.travel, task(one.task).at, task(next).at) <= begin.arrive_h + rounding_h) continue;
      const bool in_sight = task(one.task).in_sight >= 0 && task(one.task).in_sight == task(next).in_sight;
      if (!in_sight || ++running > team_.pumps[at(when_.day)]) return std::nullopt;
      if (begin.arrive_h < one.arrive_h + task(one.task).before_h - rounding_h) return std::nullopt;
      added.beside = true;
      // One is torn down after the other.
      if (added.leave_h >= one.leave_h)
        added.leave_h = std::max(added.leave_h, one.leave_h + task(next).after_h);
      else
        one.leave_h = std::max(one.leave_h, added.leave_h + task(one.task).after_h);
    }
    all.push_back(added);
    if (std::ranges::any_of(all, [&](const Visit& one) { return one.leave_h > last_h_ + rounding_h; })) return std::nullopt;
    return all;
  }

  void finish(std::vector<Visit> visits, double cost, double hauled_l) {
    // The first filling is done overnight. When the others are fetched is left to the crew; they lengthen its day.
    const int refills = team_.tank_l ? std::max(0, static_cast<int>(std::ceil(hauled_l / *team_.tank_l - 1e-9)) - 1) : 0;
    double left_h = 0.0;
    for (const Visit& one : visits) left_h = std::max(left_h, one.leave_h);
    left_h += refills * office_.terms.refill_h;
    if (left_h > last_h_ + rounding_h) return;
    const double overtime_h = std::max(0.0, left_h - team_.until_h[at(when_.day)]);
    cost += overtime_h * office_.terms.overtime_per_h + refills * office_.terms.refill_h;
    if (best_ && cost >= best_->cost - 1e-12) return;
    std::ranges::stable_sort(visits, {}, &Visit::arrive_h);
    best_ = Timetable{std::move(visits), overtime_h, refills, cost};
  }

  [[nodiscard]] std::optional<Timetable> as_booked() const {
    const Task& only = task(tasks_.front());
    if (!only.locked || only.begins[at(when_.day)].empty()) return std::nullopt;
    const Begin& begin = *std::ranges::min_element(
        only.begins[at(when_.day)], {}, [&](const Begin& one) { return std::abs(one.arrive_h - only.promised_at_h.value_or(0.0)); });
    return Timetable{{{tasks_.front(), begin.arrive_h, begin.arrive_h + begin.on_site_h, begin.chance}}, 0.0, 0, 0.0};
  }

  const Office& office_;
  const Team& team_;
  CrewDay when_;
  std::vector<int> tasks_;
  double from_h_ = 0.0, last_h_ = 0.0;
  std::optional<Timetable> best_;
};

}  // namespace

Begin until(const Begin& begin, double last_h) {
  Begin cut = begin;
  if (begin.arrive_h + begin.on_site_h <= last_h + rounding_h) return cut;
  cut.on_site_h = std::max(0.0, last_h - begin.arrive_h);
  const auto in_time = std::ranges::upper_bound(begin.takes_h, cut.on_site_h) - begin.takes_h.begin();
  cut.chance =
      begin.takes_h.empty() ? 0.0 : std::min(begin.chance, static_cast<double>(in_time) / static_cast<double>(begin.takes_h.size()));
  cut.spent_h = std::min(begin.spent_h, cut.on_site_h);
  return cut;
}

double least_chance(const Task& task, int day) { return task.promised && task.promised->day == day ? 0.0 : task.least_chance; }

double worth_of(const Task& task, const Begin& begin) { return task.worth_h * begin.chance - begin.spent_h - begin.toll_h; }

const Begin* best_begin(const Task& task, int day) {
  const auto& begins = task.begins[at(day)];
  const auto best = std::ranges::max_element(begins, {}, [&](const Begin& begin) { return worth_of(task, begin); });
  return best == begins.end() ? nullptr : &*best;
}

std::optional<Timetable> timetable(const Office& office, CrewDay when, std::span<const int> tasks) {
  if (std::ranges::any_of(tasks, [&](int task) { return office.tasks[at(task)].begins[at(when.day)].empty(); })) return std::nullopt;
  return Search(office, when, tasks).run();
}

double drive_h(const Travel& travel, Point from, Point to) {
  return std::hypot(from.x_km - to.x_km, from.y_km - to.y_km) * travel.detour / travel.speed_km_h + travel.stop_h;
}

}  // namespace plan
