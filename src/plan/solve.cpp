#include "plan/solve.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "plan/anneal.h"
#include "plan/ascent.h"
#include "plan/close_gap.h"
#include "plan/dive.h"
#include "plan/mend.h"
#include "plan/part.h"
#include "plan/regions.h"
#include "plan/relaxation.h"
#include "plan/sound.h"

namespace plan {
namespace {

// What the search spends on each of its stages, as the share of the whole that is over when it ends.
constexpr double first_search_until = 0.18;
constexpr double relaxation_until = 0.5;
constexpr double cuts_until = 0.4;
constexpr double regions_until = 0.55;

// Temperatures in the unit of the objective: found by trial on invented books of 50 to 5000 jobs.
constexpr double hot = 0.5;
constexpr double warm = 0.05;
constexpr double cold = 0.005;

// Where one linear programme over all crews' days takes too long, the book is cut into regions of about so many, then of
// twice as many.
constexpr int most_at_once = 600;
constexpr int small_book = 100;
constexpr int region_size = 120;

// Without a gauge, a mend counts as so many moves of the local search.
constexpr std::uint64_t moves_a_mend = 100000;

class Solver {
 public:
  Solver(const Ground& ground, const Effort& effort)
      : ground_(ground), effort_(effort), dice_(effort.seed), best_(Roster::promised(ground)), bound_(trivial_bound(ground)) {
    collect(Roster(ground));
    collect(best_);
  }

  Answer run() {
    const bool large = open_slots() > most_at_once;
    search(best_, {hot, cold}, large ? 0.5 * first_search_until : first_search_until);
    if (large)
      by_regions();
    else
      at_once();
    // What is under way when this is over takes a moment to hear of it.
    mends(0.95, effort_.iterations / moves_a_mend);
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

  [[nodiscard]] int open_slots() const {
    int open = 0;
    for (int slot = 0; slot < ground_.slots(); ++slot) open += ground_.candidates(slot).empty() ? 0 : 1;
    return open;
  }

  void at_once() {
    Master master(ground_);
    const Relaxation relaxed = relax_with_cuts(ground_, pool_, master, best_.objective(), 20, until(relaxation_until), until(cuts_until));
    bound_ = std::min(bound_, relaxed.bound);
    // A programme that was interrupted, over columns or over cuts, still guides a dive.
    master.take(pool_);
    if (relaxed.prices.job.empty() || !master.solve(until(0.8))) return;
    const auto dived = [&](double batch) {
      const auto found = dive(ground_, pool_, master, batch, until(0.9));
      if (!found) return false;
      consider(*found);
      collect(*found);
      return master.solve(until(0.9));
    };
    if (!dived(0.04)) return;
    if (open_slots() <= small_book) {
      // A good plan first: the smaller the gap, the fewer columns have to be tried.
      mends(std::min(0.9, spent() + 0.1), 10);
      prove(relaxed);
    }
    if (proven()) return;
    for (const double batch : {0.015, 0.005})
      if (!dived(batch)) break;
    search(best_, {warm, cold}, spent() + 0.05);
  }

  void prove(const Relaxation& relaxed) {
    const auto chosen = close_gap(ground_, relaxed, {best_.objective(), 4000, 1000000, effort_.spent ? 0 : 2000, until(0.9)});
    if (!chosen) return;
    if (chosen->columns) consider(Roster::of(ground_, *chosen->columns));
    collect(best_);
    bound_ = std::min(bound_, std::max(chosen->bound, best_.objective()));
  }

  void by_regions() {
    for (const int size : {region_size, 2 * region_size}) {
      Prices prices{std::vector<double>(static_cast<std::size_t>(ground_.jobs())),
                    std::vector<double>(static_cast<std::size_t>(ground_.slots())),
                    std::vector<double>(static_cast<std::size_t>(ground_.instance().days))};
      const auto groups = regions(ground_, size);
      for (const auto& slots : groups) {
        if (spent() >= regions_until) break;
        const auto mended = mend(best_, slots, {0.03, false, until(regions_until)});
        if (!mended.relaxed.converged) break;
        add_prices(mended, static_cast<double>(groups.size()), prices);
      }
      // The prices that the regions find hold well enough together to prove a bound for all.
      const double end = spent() + 0.15;
      bound_ = std::min(bound_, move_prices(ground_, prices, best_.objective(), bound_, 60, until(end)).bound);
    }
  }

  static void add_prices(const Mended& mended, double groups, Prices& prices) {
    for (std::size_t i = 0; i < mended.jobs.size(); ++i) {
      auto& price = prices.job[static_cast<std::size_t>(mended.jobs[i])];
      price = std::max(price, mended.relaxed.prices.job[i]);
    }
    for (std::size_t day = 0; day < prices.rig.size(); ++day) prices.rig[day] += mended.relaxed.prices.rig[day] / groups;
  }

  // Parts of the plan solved again, as large as can be solved exactly.
  void mends(double end, std::uint64_t most) {
    if (open_slots() == 0) return;
    constexpr int least = 6;
    double size = 20.0;
    for (std::uint64_t round = 0; !proven() && spent() < end && (effort_.spent || round < most); ++round) {
      const int slot = dice_.below(ground_.slots());
      if (ground_.candidates(slot).empty()) continue;
      const auto mended = mend(best_, related_slots(best_, slot, static_cast<int>(size), dice_), {0.05, true, until(end)});
      size = mended.too_large ? std::max<double>(least, 0.9 * size) : size + 0.5;
    }
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
