#include "plan/invented.h"

#include <algorithm>
#include <limits>

#include "plan/check_plan.h"
#include "plan/dice.h"
#include "plan/sound.h"

namespace invented {
namespace {

plan::Job job(plan::Dice& dice, Size size, double spread_km) {
  plan::Job job;
  job.at = {spread_km * dice.share(), spread_km * dice.share()};
  job.weight = 0.8 + 4.0 * dice.share();
  job.earliest = dice.below(size.days);
  job.latest = std::min(size.days - 1, job.earliest + dice.below(size.days));
  job.rig = dice.below(3) == 0;
  for (int crew = 0; crew < size.crews; ++crew)
    if (dice.below(4) != 0) job.crews.push_back(crew);
  for (int day = 0; day < size.days; ++day) {
    job.hours.push_back(1.0 + 4.0 * dice.share());
    job.chance.push_back(0.5 + 0.5 * dice.share());
  }
  if (dice.below(3) == 0) {
    job.promised = plan::CrewDay{job.earliest + dice.below(job.latest - job.earliest + 1), dice.below(size.crews)};
    job.locked = dice.below(4) == 0;
  }
  return job;
}

double best_from(const plan::Instance& instance, plan::Plan& plan, std::size_t index) {
  if (index == plan.size()) {
    const auto verdict = plan::check_plan(instance, plan);
    return verdict.broken.empty() ? verdict.objective : -1e300;
  }
  plan[index] = std::nullopt;
  double best = best_from(instance, plan, index + 1);
  for (int day = 0; day < instance.days; ++day)
    for (int crew = 0; crew < static_cast<int>(instance.crews.size()); ++crew) {
      plan[index] = plan::CrewDay{day, crew};
      best = std::max(best, best_from(instance, plan, index + 1));
    }
  return best;
}

}  // namespace

plan::Instance instance(std::uint64_t seed, Size size) {
  plan::Dice dice(seed);
  for (;;) {
    plan::Instance instance;
    instance.days = size.days;
    instance.max_stops = 1 + dice.below(4);
    instance.worth = {0.02, 0.25, 0.6, 1.5, 0.1, 0.5};
    instance.travel = {1.3, 45.0, 0.08};
    for (int day = 0; day < size.days; ++day) instance.rigs_per_day.push_back(dice.below(size.crews + 1));
    for (int crew = 0; crew < size.crews; ++crew) {
      plan::Crew one{{30.0 * dice.share(), 30.0 * dice.share()}, {}};
      for (int day = 0; day < size.days; ++day) one.hours.push_back(dice.below(5) == 0 ? 0.0 : 5.0 + 5.0 * dice.share());
      instance.crews.push_back(one);
    }
    for (int count = 0; count < size.jobs; ++count) instance.jobs.push_back(job(dice, size, 30.0));
    if (!plan::unsound(instance)) return instance;
  }
}

plan::Instance ruled_instance(std::uint64_t seed, Size size) {
  for (std::uint64_t trial = 0;; ++trial) {
    auto instance = invented::instance(seed + 1000 * trial, size);
    plan::Dice dice(seed + 7);
    for (auto& job : instance.jobs) {
      job.keep = 3.0 * dice.share();
      for (int day = 0; day < size.days; ++day) {
        job.spent.push_back(0.6 * dice.share());
        if (dice.below(4) == 0) job.barred.push_back({day, dice.below(size.crews)});
      }
    }
    instance.rule = [seed](plan::CrewDay when, std::span<const int> jobs) {
      double cost = 0.0;
      for (const int a : jobs) {
        for (const int b : jobs)
          if (a < b && (static_cast<std::uint64_t>(3 * a + 5 * b + when.day) + seed) % 5 == 0) return std::numeric_limits<double>::infinity();
        if (jobs.size() > 1) cost += 0.05 * static_cast<double>((static_cast<std::uint64_t>(a + when.crew) + seed) % 4);
      }
      return cost;
    };
    if (!plan::unsound(instance)) return instance;
  }
}

double best_objective(const plan::Instance& instance) {
  plan::Plan plan(instance.jobs.size());
  return best_from(instance, plan, 0);
}

}  // namespace invented
