#include "plan/sound.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "plan/check_plan.h"

namespace plan {
namespace {

using MaybeFault = std::optional<units::Fault>;

bool in(double value, double from, double to) { return value >= from && value <= to; }  // false for what is not a number

constexpr double far_km = 1e5;
constexpr double long_h = 1e5;
constexpr double much = 1e9;

MaybeFault bad_frame(const Instance& instance) {
  if (instance.days < 1 || instance.days > 400) return units::Fault{"days", std::to_string(instance.days), "expected 1 to 400"};
  if (instance.max_stops < 1 || instance.max_stops > most_stops)
    return units::Fault{"max_stops", std::to_string(instance.max_stops), "expected 1 to " + std::to_string(most_stops)};
  if (instance.rigs_per_day.size() != static_cast<std::size_t>(instance.days))
    return units::Fault{"rigs_per_day", std::to_string(instance.rigs_per_day.size()) + " entries", "expected one for each day"};
  if (std::ranges::any_of(instance.rigs_per_day, [](int rigs) { return rigs < 0; }))
    return units::Fault{"rigs_per_day", "", "expected no negative number"};
  const auto& worth = instance.worth;
  for (const double value : {worth.late_per_day, worth.travel_per_h, worth.move_day, worth.move_tomorrow, worth.move_crew, worth.drop})
    if (!in(value, 0.0, much)) return units::Fault{"objective", std::to_string(value), "expected a number from 0 to 1e9"};
  const auto& travel = instance.travel;
  if (!in(travel.detour, 1e-6, 1e6)) return units::Fault{"travel.detour", std::to_string(travel.detour), "expected a number above 0"};
  if (!in(travel.speed_km_h, 1e-6, 1e6))
    return units::Fault{"travel.speed_km_h", std::to_string(travel.speed_km_h), "expected a number above 0"};
  if (!in(travel.stop_h, 0.0, long_h)) return units::Fault{"travel.stop_h", std::to_string(travel.stop_h), "expected 0 or more"};
  return {};
}

MaybeFault bad_place(const std::string& where, Point at) {
  if (in(at.x_km, -far_km, far_km) && in(at.y_km, -far_km, far_km)) return {};
  return units::Fault{where, "", "expected a place within 1e5 km"};
}

MaybeFault bad_days(const std::string& where, const std::vector<double>& values, int days, double least, double most) {
  if (values.size() != static_cast<std::size_t>(days))
    return units::Fault{where, std::to_string(values.size()) + " entries", "expected one for each day"};
  for (const double value : values)
    if (!in(value, least, most))
      return units::Fault{where, std::to_string(value), "expected a number from " + std::to_string(least) + " to " + std::to_string(most)};
  return {};
}

MaybeFault bad_job(const Instance& instance, std::size_t index) {
  const Job& job = instance.jobs[index];
  const std::string where = "job " + std::to_string(index);
  const auto exists = [&](int crew) { return crew >= 0 && static_cast<std::size_t>(crew) < instance.crews.size(); };
  if (const auto fault = bad_place(where, job.at)) return fault;
  if (!in(job.weight, 0.0, much)) return units::Fault{where + ": weight", std::to_string(job.weight), "expected 0 or more"};
  if (const auto fault = bad_days(where + ": hours", job.hours, instance.days, 0.0, long_h)) return fault;
  if (const auto fault = bad_days(where + ": chance", job.chance, instance.days, 0.0, 1.0)) return fault;
  if (!job.spent.empty())
    if (const auto fault = bad_days(where + ": spent", job.spent, instance.days, 0.0, much)) return fault;
  if (!in(job.keep, 0.0, much)) return units::Fault{where + ": keep", std::to_string(job.keep), "expected 0 or more"};
  if (!std::ranges::all_of(job.crews, exists)) return units::Fault{where + ": crews", "", "expected crews that exist"};
  if (!in(job.earliest, -1e6, 1e6) || !in(job.latest, -1e6, 1e6)) return units::Fault{where + ": window", "", "expected days within 1e6"};
  if (job.promised && !(exists(job.promised->crew) && job.promised->day >= 0 && job.promised->day < instance.days))
    return units::Fault{where + ": promised", "", "expected a day and a crew that exist"};
  if (job.locked && !job.promised) return units::Fault{where + ": locked", "", "expected a promised day and crew"};
  if (job.locked && (job.promised->day < job.earliest || job.promised->day > job.latest))
    return units::Fault{where + ": locked", "day " + std::to_string(job.promised->day),
                        "expected a day from " + std::to_string(job.earliest) + " to " + std::to_string(job.latest)};
  return {};
}

}  // namespace

MaybeFault unsound(const Instance& instance) {
  if (const auto fault = bad_frame(instance)) return fault;
  for (std::size_t crew = 0; crew < instance.crews.size(); ++crew) {
    const std::string where = "crew " + std::to_string(crew);
    if (const auto fault = bad_place(where, instance.crews[crew].depot)) return fault;
    if (const auto fault = bad_days(where + ": hours", instance.crews[crew].hours, instance.days, 0.0, long_h)) return fault;
  }
  Plan locked(instance.jobs.size());
  for (std::size_t job = 0; job < instance.jobs.size(); ++job) {
    if (const auto fault = bad_job(instance, job)) return fault;
    if (instance.jobs[job].locked) locked[job] = instance.jobs[job].promised;
  }
  // The plan that books the locked jobs alone breaks a rule: then so does every other.
  auto verdict = check_plan(instance, locked);
  if (verdict.broken.empty()) return {};
  verdict.broken.front().where += ": locked jobs";
  return verdict.broken.front();
}

}  // namespace plan
