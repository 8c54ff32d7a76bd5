#include "plan/relaxation.h"

#include <algorithm>
#include <cmath>

#include "plan/ascent.h"
#include "plan/pricing.h"

namespace plan {
namespace {

constexpr double least_gain = 1e-7;  // a column that promises less changes nothing that anybody sees
constexpr std::size_t columns_a_slot = 6;
constexpr double close_to_best = 0.1;

std::vector<double> mixed(const std::vector<double>& centre, const std::vector<double>& now, double weight) {
  std::vector<double> mix(now.size());
  for (std::size_t i = 0; i < now.size(); ++i) mix[i] = weight * centre[i] + (1.0 - weight) * now[i];
  return mix;
}

Prices mixed(const Prices& centre, const Prices& now, double weight) {
  Prices mix{mixed(centre.job, now.job, weight), mixed(centre.slot, now.slot, weight), mixed(centre.rig, now.rig, weight), now.cuts};
  for (std::size_t cut = 0; cut < mix.cuts.size(); ++cut)  // cuts come at the end: the centre may not know the latest
    mix.cuts[cut].price = (1.0 - weight) * now.cuts[cut].price + (cut < centre.cuts.size() ? weight * centre.cuts[cut].price : 0.0);
  return mix;
}

struct Round {
  double bound = 0.0;     // at the prices asked
  std::size_t added = 0;  // columns that the pool did not have
  bool complete = true;   // every slot was asked
};

Round ask_all(const Ground& ground, const Prices& prices, Pool& pool, const std::function<bool()>& stop) {
  Round round;
  round.bound = ground.left_out();
  for (const double price : prices.job) round.bound += price;
  for (const auto& cut : prices.cuts) round.bound += cut.price;
  for (std::size_t day = 0; day < prices.rig.size(); ++day) round.bound += prices.rig[day] * ground.rigs(static_cast<int>(day));
  for (int slot = 0; slot < ground.slots(); ++slot) {
    if (stop && stop()) round.complete = false;
    if (!round.complete) return round;
    const double price = prices.slot[static_cast<std::size_t>(slot)];
    const auto offers = price_slot(ground, slot, prices, {price + least_gain, columns_a_slot, 0});
    // Nothing found means: nothing above the price and the least gain.
    round.bound += offers.best.empty() ? price + least_gain : offers.best.front().margin;
    for (const auto& offer : offers.best) round.added += pool.add(offer.column) ? 1 : 0;
  }
  return round;
}

}  // namespace

double trivial_bound(const Ground& ground) {
  double bound = ground.left_out();
  for (int job = 0; job < ground.jobs(); ++job) {
    double best = 0.0;
    for (const auto& choice : ground.choices(job)) best = std::max(best, choice.gain - ground.travel_per_h() * ground.stop_h());
    if (ground.locked(job)) best = ground.gain(job, ground.slot_of(*ground.instance().jobs[static_cast<std::size_t>(job)].promised));
    bound += best;
  }
  return bound;
}

Relaxation relax(const Ground& ground, Pool& pool, Master& master, const Relaxation& from, const std::function<bool()>& stop) {
  Relaxation best = from;
  best.converged = false;
  // The first time prices are trusted in full: they come from elsewhere and no column was asked for at them yet.
  double weight = from.prices.job.empty() ? 0.5 : 1.0;
  bool close = !from.prices.job.empty();
  for (;;) {
    master.take(pool);
    const bool solved = master.solve(stop);
    const Prices now = master.prices();
    if (!solved && stop && stop()) return best;
    best.value = ground.left_out() + master.value();
    // Prices jump about between rounds; leaning on those of the best bound calms them (Wentges 1997).
    const bool lean = close && weight > 0.0;
    Prices asked = lean ? mixed(best.prices, now, weight) : now;
    // Nothing beats prices that already stand at the best column: ask for what comes close.
    if (weight == 1.0)
      for (double& price : asked.slot) price = std::max(0.0, price - close_to_best);
    const Round round = ask_all(ground, asked, pool, stop);
    if (!round.complete) return best;
    close = close || round.bound < best.bound;
    if (best.prices.job.empty() || round.bound < best.bound) {
      best.prices = asked;
      best.bound = std::min(best.bound, round.bound);
    }
    if (best.bound - best.value < 1e-6 * std::max(1.0, std::abs(best.value)) * 0.1 || (round.added == 0 && !lean)) {
      best.converged = true;
      return best;
    }
    if (weight == 1.0)
      weight = 0.7;
    else if (round.added == 0)
      weight = weight < 0.1 ? 0.0 : weight * 0.5;
  }
}

namespace {

bool large(const Ground& ground) {
  constexpr int large_from = 60;
  int open = 0;
  for (int slot = 0; slot < ground.slots(); ++slot) open += ground.candidates(slot).empty() ? 0 : 1;
  return open >= large_from;
}

}  // namespace

Relaxation relax_with_cuts(const Ground& ground, Pool& pool, Master& master, double objective, int rounds,
                           const std::function<bool()>& stop, const std::function<bool()>& stop_cuts) {
  constexpr std::size_t cuts_a_round = 60;
  constexpr double nothing = 1e-7;
  Relaxation start;
  start.bound = trivial_bound(ground);
  if (large(ground)) {
    // Prices moved first, at a fraction of the programme's cost, spare it the rounds in which prices mean little yet.
    constexpr int price_rounds = 120;
    master.take(pool);
    if (master.solve(stop)) {
      auto [bound, prices] = move_prices(ground, master.prices(), objective, start.bound, price_rounds, stop);
      start.bound = bound;
      start.prices = std::move(prices);
    }
  }
  Relaxation best = relax(ground, pool, master, start, stop);
  for (int round = 0; round < rounds && best.converged && best.bound - objective > nothing; ++round) {
    const auto triples = broken_triples(pool, master.shares(), cuts_a_round);
    if (triples.empty()) break;
    master.cut(pool, triples);
    const Relaxation tighter = relax(ground, pool, master, best, stop_cuts);
    best.bound = std::min(best.bound, tighter.bound);
    if (!tighter.converged) break;
    best = tighter;
  }
  return best;
}

}  // namespace plan
