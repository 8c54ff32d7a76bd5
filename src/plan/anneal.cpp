#include "plan/anneal.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace plan {
namespace {

using Change = Roster::Change;

class Search {
 public:
  Search(const Roster& start, Dice& dice) : now_(start), ground_(start.ground()), dice_(dice) {
    for (int job = 0; job < ground_.jobs(); ++job)
      if (!ground_.choices(job).empty()) free_.push_back(job);
  }

  [[nodiscard]] bool stuck() const { return free_.empty(); }
  Roster& now() { return now_; }

  void step(double temperature) {
    temperature_ = temperature;
    const int job = free_[static_cast<std::size_t>(dice_.below(static_cast<int>(free_.size())))];
    const auto& choices = ground_.choices(job);
    const Choice to = choices[static_cast<std::size_t>(dice_.below(static_cast<int>(choices.size())))];
    const int from = now_.slot_of(job);
    if (to.slot == from) return leave_out(job, from);
    Change left;
    if (from >= 0 && !without(from, job, left)) return;
    const double bonus = to.gain - (from >= 0 ? ground_.gain(job, from) - now_.saved(left) : 0.0);
    if (!put_in(job, to.slot, from, left, bonus)) push_out(job, to.slot, from, left, bonus);
  }

 private:
  [[nodiscard]] bool accepts(double delta) { return delta >= 0.0 || delta > temperature_ * std::log(dice_.share()); }

  [[nodiscard]] bool without(int slot, int job, Change& change) const {
    Stops stops = now_.stops(slot);
    stops.remove(job);
    // A locked job that is too long for its day may be alone there, and was: nothing else can have been beside it.
    return now_.try_stops(slot, stops, change);
  }

  void leave_out(int job, int slot) {
    Change left;
    if (!without(slot, job, left)) return;
    const double delta = now_.saved(left) - ground_.gain(job, slot);
    if (!accepts(delta)) return;
    now_.make(left);
    now_.book(job, -1);
    now_.add_to_objective(delta);
  }

  // False: there is no room, so that somebody would have to go.
  bool put_in(int job, int slot, int from, const Change& left, double bonus) {
    Stops stops = now_.stops(slot);
    if (stops.count == ground_.max_stops()) return false;
    stops.add(job);
    Change taken;
    if (!now_.try_stops(slot, stops, taken)) return false;
    const Change* gone = from >= 0 ? &left : nullptr;
    if (!now_.rigs_suffice<2>({&taken, gone})) return false;
    const double delta = bonus + now_.saved(taken);
    if (!accepts(delta)) return dice_.below(2) == 0;
    if (gone != nullptr) now_.make(*gone);
    now_.make(taken);
    now_.book(job, slot);
    now_.add_to_objective(delta);
    return true;
  }

  // `job` takes the place of another, which goes where it costs least of: its own old place, a few places at random, or out.
  void push_out(int job, int slot, int from, const Change& left, double bonus) {
    const Stops& here = now_.stops(slot);
    if (here.count == 0) return;
    const int other = here.job[static_cast<std::size_t>(dice_.below(here.count))];
    if (ground_.locked(other)) return;
    Stops stops = here;
    stops.replace(other, job);
    Change taken;
    if (!now_.try_stops(slot, stops, taken)) return;
    const double base = bonus + now_.saved(taken) - ground_.gain(other, slot);
    const Change* gone = from >= 0 ? &left : nullptr;
    int best_slot = -2;  // nowhere yet: out needs enough rigs too
    double best = -1e300;
    Change best_change;
    if (now_.rigs_suffice<2>({&taken, gone})) {
      best_slot = -1;
      best = base;
    }
    if (from >= 0 && ground_.may(other, from)) {
      Change swapped;
      Stops there = left.stops;
      there.add(other);
      if (now_.try_stops(from, there, swapped) && now_.rigs_suffice<2>({&taken, &swapped})) {
        const double delta = base - now_.saved(left) + now_.saved(swapped) + ground_.gain(other, from);
        if (delta > best) best = delta, best_slot = from, best_change = swapped;
      }
    }
    const auto& choices = ground_.choices(other);
    for (int tries = 0; tries < 3; ++tries) {
      const Choice to = choices[static_cast<std::size_t>(dice_.below(static_cast<int>(choices.size())))];
      if (to.slot == from || to.slot == slot) continue;
      if (base + to.gain <= best) continue;
      Stops there = now_.stops(to.slot);
      if (there.count == ground_.max_stops()) continue;
      there.add(other);
      Change moved;
      if (!now_.try_stops(to.slot, there, moved) || !now_.rigs_suffice<3>({&taken, gone, &moved})) continue;
      const double delta = base + to.gain + now_.saved(moved);
      if (delta > best) best = delta, best_slot = to.slot, best_change = moved;
    }
    if (best_slot == -2 || !accepts(best)) return;
    if (gone != nullptr) now_.make(*gone);
    now_.make(taken);
    if (best_slot >= 0) now_.make(best_change);
    now_.book(job, slot);
    now_.book(other, best_slot);
    now_.add_to_objective(best);
  }

  Roster now_;
  const Ground& ground_;
  Dice& dice_;
  std::vector<int> free_;
  double temperature_ = 0.0;
};

}  // namespace

Roster anneal(const Roster& start, const Schedule& schedule, Dice& dice) {
  Roster best = start;
  Search search(start, dice);
  if (search.stuck()) return best;
  constexpr std::uint64_t beat = 1024;
  constexpr double views = 40.0;  // of the cold half
  double next_view = 0.5;
  double temperature = schedule.hot;
  for (std::uint64_t move = 0; schedule.moves == 0 || move < schedule.moves; ++move) {
    if (move % beat == 0) {
      double done = schedule.moves == 0 ? 0.0 : static_cast<double>(move) / static_cast<double>(schedule.moves);
      if (schedule.progress) done = std::max(done, schedule.progress());
      if (done >= 1.0) break;
      temperature = schedule.hot * std::pow(schedule.cold / schedule.hot, done);
      if (done >= next_view) {
        if (schedule.seen) schedule.seen(search.now());
        if (search.now().objective() > best.objective()) best = search.now();
        next_view += 0.5 / views;
      }
    }
    search.step(temperature);
  }
  if (search.now().objective() > best.objective()) best = search.now();
  best.recount();
  return best;
}

}  // namespace plan
