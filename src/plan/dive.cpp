#include "plan/dive.h"

#include <algorithm>

#include "plan/pricing.h"

namespace plan {
namespace {

constexpr double as_good_as_whole = 0.97;

class Dive {
 public:
  Dive(const Ground& ground, Pool& pool, Master& master)
      : ground_(ground), pool_(pool), master_(master), settled_(at(ground.slots()), 0), taken_(at(ground.jobs()), 0), roster_(ground) {
    for (int slot = 0; slot < ground.slots(); ++slot) open_ += ground.candidates(slot).empty() ? 0.0 : 1.0;
  }

  // False: nothing is left to decide.
  bool fix_some(double batch_share) {
    struct Candidate {
      double share;
      std::size_t column;
    };
    const auto shares = master_.shares();
    std::vector<Candidate> candidates;
    for (std::size_t column = 0; column < shares.size(); ++column)
      if (shares[column] > 1e-6 && settled_[at(pool_.columns()[column].slot)] == 0) candidates.push_back({shares[column], column});
    if (candidates.empty()) return false;
    std::ranges::sort(candidates,
                      [](const Candidate& a, const Candidate& b) { return a.share != b.share ? a.share > b.share : a.column < b.column; });
    const auto batch = std::max<std::size_t>(1, static_cast<std::size_t>(batch_share * open_));
    std::size_t fixed = 0;
    for (const auto& [share, column] : candidates) {
      if (share < as_good_as_whole && fixed >= batch) break;
      if (fix(column)) ++fixed;
    }
    return fixed > 0;
  }

  void find_columns() {
    Prices prices = master_.prices();
    for (std::size_t job = 0; job < taken_.size(); ++job)
      if (taken_[job] != 0) prices.job[job] = 1e12;
    for (int slot = 0; slot < ground_.slots(); ++slot)
      if (settled_[at(slot)] == 0)
        for (const auto& offer : price_slot(ground_, slot, prices, {prices.slot[at(slot)] + 1e-6, 4, 200000}).best) pool_.add(offer.column);
    master_.take(pool_);
  }

  [[nodiscard]] const Roster& roster() const { return roster_; }

 private:
  static std::size_t at(int index) { return static_cast<std::size_t>(index); }

  bool fix(std::size_t index) {
    const Column& column = pool_.columns()[index];
    if (settled_[at(column.slot)] != 0) return false;
    for (const int job : column.stops.jobs())
      if (taken_[at(job)] != 0) return false;
    Roster::Change change;
    if (!roster_.try_stops(column.slot, column.stops, change) || !roster_.rigs_suffice<1>({&change})) return false;
    roster_.make(change);
    settled_[at(column.slot)] = 1;
    master_.insist(pool_, index);
    for (const int job : column.stops.jobs()) {
      roster_.book(job, column.slot);
      if (!ground_.locked(job)) taken_[at(job)] = 1;
    }
    return true;
  }

  const Ground& ground_;
  Pool& pool_;
  Master& master_;
  std::vector<std::uint8_t> settled_;
  std::vector<std::uint8_t> taken_;
  Roster roster_;
  double open_ = 0.0;  // slots that somebody could be booked in
};

}  // namespace

std::optional<Roster> dive(const Ground& ground, Pool& pool, Master& master, double batch, const std::function<bool()>& stop) {
  Dive dive(ground, pool, master);
  bool ended = false;
  while (!ended && dive.fix_some(batch)) {
    ended = !master.resolve(stop);
    if (ended) break;
    dive.find_columns();
    ended = !master.solve(stop);
  }
  master.release();
  if (ended && stop && stop()) return std::nullopt;
  Roster roster = dive.roster();
  roster.recount();
  return roster;
}

}  // namespace plan
