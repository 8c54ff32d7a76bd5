#include "plan/check_plan.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <string>

namespace plan {
namespace {

// A tour is summed in another order here than where it was planned: so much slack in hours is rounding, not overtime.
constexpr double rounding_h = 1e-6;

double leg_h(const Travel& travel, Point from, Point to) {
  return std::hypot(from.x_km - to.x_km, from.y_km - to.y_km) * travel.detour / travel.speed_km_h + travel.stop_h;
}

double round_trip_h(const Instance& instance, Point depot, std::vector<int> stops) {
  std::ranges::sort(stops);
  double best = std::numeric_limits<double>::infinity();
  do {
    Point here = depot;
    double trip_h = 0.0;
    for (const int job : stops) {
      const Point next = instance.jobs[static_cast<std::size_t>(job)].at;
      trip_h += leg_h(instance.travel, here, next);
      here = next;
    }
    best = std::min(best, trip_h + leg_h(instance.travel, here, depot));
  } while (std::ranges::next_permutation(stops).found);
  return best;
}

std::string number(std::size_t value) { return std::to_string(value); }

class Referee {
 public:
  explicit Referee(const Instance& instance) : instance_(instance) {}

  Verdict judge(const Plan& plan) {
    if (plan.size() != instance_.jobs.size()) {
      broken("plan", number(plan.size()), "expected one entry for each of " + number(instance_.jobs.size()) + " jobs");
      return verdict_;
    }
    for (std::size_t job = 0; job < plan.size(); ++job) judge_job(job, plan[job]);
    std::vector<int> rigs(static_cast<std::size_t>(instance_.days), 0);
    for (const auto& [crew_day, stops] : stops_) judge_crew_day(crew_day.second, crew_day.first, stops, rigs);
    for (std::size_t day = 0; day < rigs.size(); ++day)
      if (rigs[day] > instance_.rigs_per_day[day])
        broken("day " + number(day), std::to_string(rigs[day]) + " rigs",
               "expected at most " + std::to_string(instance_.rigs_per_day[day]));
    verdict_.objective -= instance_.worth.travel_per_h * verdict_.travel_h;
    return verdict_;
  }

 private:
  void broken(std::string where, std::string found, std::string expected) {
    verdict_.broken.push_back({std::move(where), std::move(found), std::move(expected)});
  }

  void judge_job(std::size_t index, const std::optional<CrewDay>& booked) {
    const Job& job = instance_.jobs[index];
    const std::string where = "job " + number(index);
    const double moved = job.keep * (job.promised && job.promised->day == 0 ? instance_.worth.move_tomorrow : instance_.worth.move_day);
    if (!booked) {
      if (job.locked) broken(where, "not booked", "expected its locked day and crew");
      if (job.promised) {
        ++verdict_.dropped;
        verdict_.objective -= moved + job.keep * instance_.worth.drop;
      }
      return;
    }
    if (booked->day < 0 || booked->day >= instance_.days || booked->crew < 0 ||
        static_cast<std::size_t>(booked->crew) >= instance_.crews.size()) {
      broken(where, "day " + std::to_string(booked->day) + " crew " + std::to_string(booked->crew), "expected a day and a crew that exist");
      return;
    }
    if (booked->day < job.earliest || booked->day > job.latest)
      broken(where, "day " + std::to_string(booked->day),
             "expected a day from " + std::to_string(job.earliest) + " to " + std::to_string(job.latest));
    if (!job.locked && std::ranges::find(job.crews, booked->crew) == job.crews.end())
      broken(where, "crew " + std::to_string(booked->crew), "expected a crew that may do it");
    if (!job.locked && std::ranges::find(job.barred, *booked) != job.barred.end())
      broken(where, "day " + std::to_string(booked->day) + " crew " + std::to_string(booked->crew),
             "expected a day and crew that is not barred");
    if (job.locked && job.promised != booked) broken(where, "moved", "expected its locked day and crew");
    const auto day = static_cast<std::size_t>(booked->day);
    ++verdict_.served;
    stops_[{booked->crew, booked->day}].push_back(static_cast<int>(index));
    verdict_.objective += job.weight * job.chance[day] - instance_.worth.late_per_day * job.weight * (booked->day - job.earliest);
    if (!job.spent.empty()) verdict_.objective -= job.spent[day];
    if (job.promised && job.promised->day != booked->day) {
      ++verdict_.moved_day;
      verdict_.objective -= moved;
    } else if (job.promised && job.promised->crew != booked->crew) {
      ++verdict_.moved_crew;
      verdict_.objective -= job.keep * instance_.worth.move_crew;
    }
  }

  void judge_crew_day(int day, int crew, const std::vector<int>& stops, std::vector<int>& rigs) {
    const std::string where = "crew " + std::to_string(crew) + " day " + std::to_string(day);
    if (stops.size() > static_cast<std::size_t>(instance_.max_stops)) {
      broken(where, number(stops.size()) + " stops", "expected at most " + std::to_string(instance_.max_stops));
      return;
    }
    const auto& its_crew = instance_.crews[static_cast<std::size_t>(crew)];
    const double trip_h = round_trip_h(instance_, its_crew.depot, stops);
    double busy_h = trip_h;
    bool rig = false;
    for (const int stop : stops) {
      const Job& job = instance_.jobs[static_cast<std::size_t>(stop)];
      busy_h += job.hours[static_cast<std::size_t>(day)];
      rig = rig || job.rig;
    }
    const bool alone_and_locked = stops.size() == 1 && instance_.jobs[static_cast<std::size_t>(stops.front())].locked;
    const double has_h = its_crew.hours[static_cast<std::size_t>(day)];
    if (busy_h > has_h + rounding_h && !alone_and_locked)
      broken(where, std::to_string(busy_h) + " h", "expected at most " + std::to_string(has_h) + " h");
    if (instance_.rule) {
      const double extra = instance_.rule({day, crew}, stops);
      if (std::isfinite(extra))
        verdict_.objective -= extra;
      else
        broken(where, "these jobs", "expected jobs that its hours, starts and water allow together");
    }
    verdict_.travel_h += trip_h;
    if (rig) ++rigs[static_cast<std::size_t>(day)];
  }

  const Instance& instance_;
  Verdict verdict_;
  std::map<std::pair<int, int>, std::vector<int>> stops_;  // by crew and day
};

}  // namespace

Verdict check_plan(const Instance& instance, const Plan& plan) { return Referee(instance).judge(plan); }

}  // namespace plan
