#include "plan/solve.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "plan/anneal.h"
#include "plan/choose.h"
#include "plan/dive.h"
#include "plan/pricing.h"
#include "plan/relaxation.h"
#include "plan/sound.h"

namespace plan {
namespace {

// What the search spends on each of its stages, as the share of the whole that is over when it ends.
constexpr double first_search_until = 0.18;
constexpr double relaxation_until = 0.6;

// Temperatures in the unit of the objective: found by trial on invented books of 50 to 5000 jobs.
constexpr double hot = 0.5;
constexpr double warm = 0.05;
constexpr double cold = 0.005;

class Solver {
 public:
  Solver(const Ground& ground, const Effort& effort)
      : ground_(ground), effort_(effort), dice_(effort.seed), best_(Roster::promised(ground)), bound_(trivial_bound(ground)) {
    collect(Roster(ground));
    collect(best_);
  }

  Answer run() {
    search(best_, {hot, cold}, first_search_until);
    Master master(ground_);
    const Relaxation relaxed = relax(ground_, pool_, master, until(relaxation_until));
    bound_ = std::min(bound_, relaxed.bound);
    if (relaxed.converged) {
      prove(relaxed);
      if (!proven()) dives(master);
      if (!proven()) prove(relaxed);
    }
    if (!proven()) search(best_, {relaxed.converged ? warm : 2.0 * warm, cold}, 1.0);
    return {best_.plan(), best_.objective(), std::max(bound_, best_.objective())};
  }

 private:
  [[nodiscard]] double spent() const { return effort_.spent ? effort_.spent() : 0.0; }
  [[nodiscard]] std::function<bool()> until(double share) const {
    if (!effort_.spent) return {};
    return [this, share] { return effort_.spent() >= share; };
  }
  [[nodiscard]] bool proven() const { return bound_ - best_.objective() <= 1e-7 * std::max(1.0, std::abs(bound_)); }

  void collect(const Roster& roster) {
    for (int slot = 0; slot < ground_.slots(); ++slot)
      if (roster.stops(slot).count > 0) pool_.add(column_of(ground_, slot, roster.stops(slot)));
  }

  void consider(const Roster& roster) {
    if (roster.objective() > best_.objective()) best_ = roster;
  }

  // Annealing from `start` until so much of the whole is spent; by count, half of the moves are its.
  void search(const Roster& start, Schedule schedule, double end) {
    const double begin = spent();
    if (begin >= end) return;
    schedule.moves = effort_.iterations / 2;
    if (effort_.spent)
      schedule.progress = [this, begin, end] { return (effort_.spent() - begin) / (end - begin); };
    else if (schedule.moves == 0)
      return;
    schedule.seen = [this](const Roster& roster) { collect(roster); };
    consider(anneal(start, schedule, dice_));
    collect(best_);
  }

  void dives(Master& master) {
    for (const double batch : {0.03, 0.01, 0.004}) {
      if (spent() >= 0.9) return;
      const auto found = dive(ground_, pool_, master, batch, until(0.95));
      if (!found) return;
      consider(*found);
      collect(*found);
      if (!master.solve(until(0.95))) return;
    }
  }

  // Only columns whose price is within the gap can be part of a better plan: when they are few, they are all tried.
  void prove(const Relaxation& relaxed) {
    constexpr std::size_t many = 12000;
    const double gap = relaxed.bound - best_.objective();
    std::vector<Column> columns;
    for (int slot = 0; slot < ground_.slots(); ++slot) {
      const double price = relaxed.prices.slot[static_cast<std::size_t>(slot)];
      const auto offers = price_slot(ground_, slot, relaxed.prices, {price - gap - 1e-6, many, 1000000});
      for (const auto& offer : offers.best) columns.push_back(offer.column);
      if (!offers.complete || columns.size() >= many || spent() >= 0.9) return;
    }
    const auto chosen = choose(ground_, columns, {best_.objective(), effort_.spent ? 0 : 2000, until(0.9)});
    if (chosen.columns) {
      consider(Roster::of(ground_, *chosen.columns));
      collect(best_);
    }
    bound_ = std::min(bound_, std::max(chosen.bound, best_.objective()));
  }

  const Ground& ground_;
  const Effort& effort_;
  Dice dice_;
  Pool pool_;
  Roster best_;
  double bound_;
};

}  // namespace

units::Result<Answer> solve(const Instance& instance, const Effort& effort) {
  if (auto fault = unsound(instance)) return tl::make_unexpected(*fault);
  const Ground ground(instance);
  return Solver(ground, effort).run();
}

}  // namespace plan
