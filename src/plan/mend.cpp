#include "plan/mend.h"

#include "plan/close_gap.h"
#include "plan/dive.h"
#include "plan/part.h"

namespace plan {
namespace {

constexpr double least_gain = 1e-6;

void add_columns(Pool& pool, const Roster& roster) {
  for (int slot = 0; slot < roster.ground().slots(); ++slot)
    if (roster.stops(slot).count > 0) pool.add(column_of(roster.ground(), slot, roster.stops(slot)));
}

}  // namespace

Mended mend(Roster& roster, const std::vector<int>& slots, const MendLimits& limits) {
  const Part part = part_of(roster, slots);
  const Ground ground(part.instance);
  const Roster now = Roster::of(ground, part.now);
  Pool pool;
  add_columns(pool, Roster(ground));
  add_columns(pool, now);
  Master master(ground);
  Mended mended;
  mended.jobs = part.jobs;
  mended.relaxed = relax_with_cuts(ground, pool, master, now.objective(), limits.exactly ? 6 : 0, limits.stop, limits.stop);
  if (!mended.relaxed.converged) return mended;
  if (mended.relaxed.bound - now.objective() < least_gain) {
    mended.exact = true;
    return mended;
  }
  std::optional<Roster> found;
  if (limits.exactly) {
    const auto chosen = close_gap(ground, mended.relaxed, {now.objective(), 1500, 200000, 100, limits.stop});
    mended.too_large = !chosen;
    if (chosen && chosen->columns) found = Roster::of(ground, *chosen->columns);
    mended.exact = chosen && chosen->bound - (found ? found->objective() : now.objective()) < least_gain;
  }
  if (!limits.exactly || mended.too_large) found = dive(ground, pool, master, limits.batch, limits.stop);
  if (!found || found->objective() < now.objective() + least_gain) return mended;
  mended.better = true;
  roster = with_part(roster, slots, part, found->plan());
  return mended;
}

}  // namespace plan
