#include "plan/referee.h"

#include <Cbc_C_Interface.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <vector>

namespace referee {
namespace {

using plan::CrewDay;
using plan::Instance;
using plan::Job;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

double moved(const Instance& book, const Job& job) {
  return job.keep * (job.promised->day == 0 ? book.worth.move_tomorrow : book.worth.move_day);
}

double loss_left_out(const Instance& book, const Job& job) { return job.promised ? moved(book, job) + job.keep * book.worth.drop : 0.0; }

double worth_done(const Instance& book, const Job& job, CrewDay when) {
  double worth = job.weight * job.chance[at(when.day)] - book.worth.late_per_day * job.weight * (when.day - job.earliest);
  if (!job.spent.empty()) worth -= job.spent[at(when.day)];
  if (!job.promised) return worth;
  if (job.promised->day != when.day) return worth - moved(book, job);
  return job.promised->crew == when.crew ? worth : worth - job.keep * book.worth.move_crew;
}

bool may_go(const Job& job, CrewDay when) {
  if (when.day < job.earliest || when.day > job.latest) return false;
  if (job.locked) return job.promised == when;
  return std::ranges::count(job.crews, when.crew) > 0 && std::ranges::count(job.barred, when) == 0;
}

// By every order of the stops.
double shortest_h(const Instance& book, plan::Point depot, std::vector<int> stops) {
  const auto leg_h = [&](plan::Point from, plan::Point to) {
    return std::hypot(from.x_km - to.x_km, from.y_km - to.y_km) * book.travel.detour / book.travel.speed_km_h + book.travel.stop_h;
  };
  std::ranges::sort(stops);
  double shortest = std::numeric_limits<double>::infinity();
  do {
    double hours = leg_h(depot, book.jobs[at(stops.front())].at) + leg_h(book.jobs[at(stops.back())].at, depot);
    for (std::size_t stop = 1; stop < stops.size(); ++stop)
      hours += leg_h(book.jobs[at(stops[stop - 1])].at, book.jobs[at(stops[stop])].at);
    shortest = std::min(shortest, hours);
  } while (std::ranges::next_permutation(stops).found);
  return shortest;
}

// Rows: a job, at most once (exactly once if locked); a crew's day, at most once; a day's rigs. Columns: sets. Their worth counts from the
// plan that leaves every job out.
class Programme {
 public:
  explicit Programme(const Instance& book) : book_(book) {
    for (const Job& job : book.jobs)
      least_.push_back(job.locked ? 1.0 : -unbounded), most_.push_back(1.0), nothing_done_ -= loss_left_out(book, job);
    least_.resize(at(day_row(book.days)), -unbounded);
    most_.resize(at(day_row(0)), 1.0);
    for (const int rigs : book.rigs_per_day) most_.push_back(rigs);
    for (int day = 0; day < book.days; ++day)
      for (int crew = 0; crew < crews(); ++crew) add_crew_day({day, crew});
  }

  [[nodiscard]] Optimum solve() const {
    const std::vector<double> none(worths_.size(), 0.0);
    const std::vector<double> once(worths_.size(), 1.0);
    const std::vector<double> ones(rows_.size(), 1.0);
    const std::unique_ptr<Cbc_Model, decltype(&Cbc_deleteModel)> owner(Cbc_newModel(), &Cbc_deleteModel);
    Cbc_Model* const cbc = owner.get();
    Cbc_loadProblem(cbc, static_cast<int>(worths_.size()), static_cast<int>(least_.size()), starts_.data(), rows_.data(), ones.data(),
                    none.data(), once.data(), worths_.data(), least_.data(), most_.data());
    for (std::size_t set = 0; set < worths_.size(); ++set) Cbc_setInteger(cbc, static_cast<int>(set));
    Cbc_setObjSense(cbc, -1.0);  // maximise
    Cbc_setLogLevel(cbc, 0);
    Cbc_setParameter(cbc, "ratioGap", "0");
    Cbc_setParameter(cbc, "allowableGap", "1e-9");
    // Both cost more here than they spare.
    Cbc_setParameter(cbc, "preprocess", "off");
    Cbc_setParameter(cbc, "heuristics", "off");
    Cbc_solve(cbc);
    return {nothing_done_ + Cbc_getObjValue(cbc), worths_.size(), Cbc_isProvenOptimal(cbc) != 0};
  }

 private:
  static constexpr double unbounded = std::numeric_limits<double>::max();  // as COIN_DBL_MAX

  [[nodiscard]] int crews() const { return static_cast<int>(book_.crews.size()); }
  [[nodiscard]] int crew_day_row(CrewDay when) const { return static_cast<int>(book_.jobs.size()) + when.day * crews() + when.crew; }
  [[nodiscard]] int day_row(int day) const { return crew_day_row({book_.days, 0}) + day; }

  void add_crew_day(CrewDay when) {
    std::vector<int> may;
    for (std::size_t job = 0; job < book_.jobs.size(); ++job)
      if (may_go(book_.jobs[job], when)) may.push_back(static_cast<int>(job));
    std::vector<int> chosen;
    add_with(when, may, 0, chosen);
  }

  // No set is spared for what a smaller one is like: every one is looked at.
  void add_with(CrewDay when, const std::vector<int>& may, std::size_t from, std::vector<int>& chosen) {
    if (!chosen.empty()) add_if_feasible(when, chosen);
    if (chosen.size() == at(book_.max_stops)) return;
    for (std::size_t next = from; next < may.size(); ++next) {
      chosen.push_back(may[next]);
      add_with(when, may, next + 1, chosen);
      chosen.pop_back();
    }
  }

  void add_if_feasible(CrewDay when, const std::vector<int>& jobs) {
    constexpr double rounding_h = 1e-6;  // check_plan.py's own
    const auto& crew = book_.crews[at(when.crew)];
    const bool exempt = jobs.size() == 1 && book_.jobs[at(jobs.front())].locked;
    double busy_h = 0.0;
    double worth = book_.rule ? -book_.rule(when, jobs) : 0.0;
    bool rig = false;
    for (const int index : jobs) {
      const Job& job = book_.jobs[at(index)];
      busy_h += job.hours[at(when.day)];
      worth += worth_done(book_, job, when) + loss_left_out(book_, job);
      rig = rig || job.rig;
    }
    const double most_h = exempt ? std::numeric_limits<double>::infinity() : crew.hours[at(when.day)] + rounding_h;
    if (busy_h > most_h) return;  // before the orders are tried
    const double drive_h = shortest_h(book_, crew.depot, jobs);
    if (busy_h + drive_h > most_h || !std::isfinite(worth)) return;
    rows_.insert(rows_.end(), jobs.begin(), jobs.end());
    rows_.push_back(crew_day_row(when));
    if (rig) rows_.push_back(day_row(when.day));
    starts_.push_back(static_cast<int>(rows_.size()));
    worths_.push_back(worth - book_.worth.travel_per_h * drive_h);
  }

  const Instance& book_;
  double nothing_done_ = 0.0;
  std::vector<double> least_;
  std::vector<double> most_;
  std::vector<int> starts_{0};
  std::vector<int> rows_;
  std::vector<double> worths_;
};

}  // namespace

Optimum optimum(const plan::Instance& instance) { return Programme(instance).solve(); }

}  // namespace referee
