#include "plan/check_schedule.h"

#include <cmath>
#include <string>

namespace plan {
namespace {

constexpr double minute_h = 1.0 / 60.0;  // nobody's watch is better

std::string clock(double h) {
  const long minutes = std::lround(h * 60.0);
  return std::to_string(minutes / 60) + ":" + (minutes % 60 < 10 ? "0" : "") + std::to_string(minutes % 60);
}

class Referee {
 public:
  Referee(const Office& office, const Schedule& schedule) : office_(office), schedule_(schedule) {}

  std::vector<units::Fault> judge() {
    std::vector<int> seen(office_.tasks.size(), 0);
    std::vector<int> rigs(static_cast<std::size_t>(office_.days), 0);
    for (const auto& [when, day] : schedule_.days) {
      judge_day(when.first, when.second, day);
      ++rigs[static_cast<std::size_t>(when.first)];
      for (const Visit& visit : day.visits) {
        ++seen[static_cast<std::size_t>(visit.task)];
        judge_visit(when.first, when.second, visit);
      }
    }
    for (std::size_t i = 0; i < seen.size(); ++i) judge_task(i, seen[i]);
    for (std::size_t day = 0; day < rigs.size(); ++day)
      if (rigs[day] > office_.rigs_per_day[day])
        broken("day " + std::to_string(day), std::to_string(rigs[day]) + " rigs", "expected fewer");
    return std::move(broken_);
  }

 private:
  void broken(std::string where, std::string found, std::string expected) {
    broken_.push_back({std::move(where), std::move(found), std::move(expected)});
  }
  [[nodiscard]] const Task& task(int index) const { return office_.tasks[static_cast<std::size_t>(index)]; }

  void judge_task(std::size_t index, int visits) {
    const Task& task = office_.tasks[index];
    const std::string where = "task " + std::to_string(index);
    const auto& booked = schedule_.plan[index];
    if (visits != (booked ? 1 : 0)) broken(where, std::to_string(visits) + " visits", booked ? "expected one" : "expected none");
    if (!task.locked) return;
    if (!booked || booked->day != task.promised->day || booked->crew != task.promised->crew) broken(where, "moved", "expected it locked");
  }

  void judge_visit(int day, int crew, const Visit& visit) {
    const Task& task = this->task(visit.task);
    const std::string where = "task " + std::to_string(visit.task);
    const auto& booked = schedule_.plan[static_cast<std::size_t>(visit.task)];
    if (!booked || booked->day != day || booked->crew != crew) broken(where, "elsewhere", "expected it where it is booked");
    if (task.locked) return;
    if (day < task.earliest || day > task.latest) broken(where, "day " + std::to_string(day), "expected a day that suits");
    bool may = false, barred = false, begins = false;
    for (const int team : task.teams) may = may || team == crew;
    for (const CrewDay& bar : task.barred) barred = barred || (bar.day == day && bar.crew == crew);
    for (const Begin& begin : task.begins[static_cast<std::size_t>(day)])
      begins = begins || (std::abs(begin.arrive_h - visit.arrive_h) < minute_h && time_enough(begin, task, day, visit));
    if (!may) broken(where, "crew " + std::to_string(crew), "expected a crew that may do it");
    if (barred)
      broken(where, "day " + std::to_string(day) + " crew " + std::to_string(crew), "expected a day and crew that no rule forbids");
    if (!begins) broken(where, clock(visit.arrive_h), "expected an hour at which it may begin, and its time on site");
  }

  // The time that a begin asks for, or as much as leaves the chance that the day needs.
  [[nodiscard]] static bool time_enough(const Begin& begin, const Task& task, int day, const Visit& visit) {
    const double has_h = visit.leave_h - visit.arrive_h + minute_h;
    if (has_h >= begin.on_site_h) return visit.chance <= begin.chance + 1e-9;
    double done = 0.0;
    for (const double takes_h : begin.takes_h) done += takes_h <= has_h ? 1.0 / static_cast<double>(begin.takes_h.size()) : 0.0;
    const bool promised = task.promised && task.promised->day == day;
    return visit.chance <= done + 1e-9 && (promised || visit.chance >= task.least_chance - 1e-9);
  }

  void judge_day(int day, int crew, const Timetable& table) {
    const std::string where = "crew " + std::to_string(crew) + " day " + std::to_string(day);
    const Team& team = office_.teams[static_cast<std::size_t>(crew)];
    const auto d = static_cast<std::size_t>(day);
    const auto& visits = table.visits;
    if (visits.size() > static_cast<std::size_t>(most_stops)) broken(where, std::to_string(visits.size()) + " stops", "expected fewer");
    if (visits.size() == 1 && task(visits.front().task).locked) return;
    double water_l = 0.0, last_h = 0.0;
    for (const Visit& one : visits) {
      if (one.arrive_h < team.from_h[d] - minute_h) broken(where, clock(one.arrive_h), "expected work from " + clock(team.from_h[d]));
      water_l += task(one.task).hauled_l;
      last_h = std::max(last_h, one.leave_h);
      if (team.tank_l && task(one.task).hauled_l > *team.tank_l && team.people[d] < 2)
        broken(where, "task " + std::to_string(one.task), "expected a second person to fetch water");
      int under_pressure = 0;
      for (const Visit& other : visits) {
        if (other.arrive_h > one.arrive_h || (other.arrive_h == one.arrive_h && other.task > one.task)) continue;
        if (other.task == one.task) {
          ++under_pressure;
          continue;
        }
        const double ready_h = other.leave_h + std::hypot(task(other.task).at.x_km - task(one.task).at.x_km,
                                                          task(other.task).at.y_km - task(one.task).at.y_km) *
                                                   office_.travel.detour / office_.travel.speed_km_h;
        if (ready_h <= one.arrive_h + minute_h) continue;
        ++under_pressure;
        if (task(other.task).in_sight < 0 || task(other.task).in_sight != task(one.task).in_sight)
          broken(where, "tasks " + std::to_string(other.task) + " and " + std::to_string(one.task), "expected one after the other");
        if (one.arrive_h < other.arrive_h + task(other.task).before_h - minute_h)
          broken(where, "task " + std::to_string(one.task), "expected the tree before it to be set up first");
      }
      if (under_pressure > std::max(1, team.pumps[d])) broken(where, std::to_string(under_pressure) + " trees at once", "expected fewer");
    }
    if (team.tank_l && water_l > *team.tank_l) last_h += office_.terms.refill_h * (std::ceil(water_l / *team.tank_l - 1e-9) - 1.0);
    if (last_h > team.until_h[d] + team.overtime_h + minute_h)
      broken(where, clock(last_h), "expected to be off site by " + clock(team.until_h[d] + team.overtime_h));
  }

  const Office& office_;
  const Schedule& schedule_;
  std::vector<units::Fault> broken_;
};

}  // namespace

std::vector<units::Fault> broken_rules(const Office& office, const Schedule& schedule) { return Referee(office, schedule).judge(); }

}  // namespace plan
