#include "plan/master.h"

#include <ClpEventHandler.hpp>
#include <ClpSimplex.hpp>
#include <CoinPackedVector.hpp>
#include <algorithm>
#include <array>

namespace plan {
namespace {

class Watch : public ClpEventHandler {
 public:
  explicit Watch(const std::function<bool()>& stop) : stop_(stop) {}
  int event(Event what) override {
    constexpr int go_on = -1;
    constexpr int end = 0;
    if (what != endOfIteration || !stop_ || ++iterations_ % 32 != 0) return go_on;
    return stop_() ? end : go_on;
  }
  [[nodiscard]] ClpEventHandler* clone() const override { return new Watch(*this); }

 private:
  std::function<bool()> stop_;
  unsigned iterations_ = 0;
};

}  // namespace

struct Master::Solver {
  explicit Solver(const Ground& the_ground) : ground(the_ground) {}
  const Ground& ground;
  ClpSimplex clp;
  std::size_t taken = 0;
  std::vector<Triple> cuts;

  [[nodiscard]] int first_cut() const { return ground.jobs() + ground.slots() + ground.instance().days; }
};

Master::Master(const Ground& ground) : solver_(std::make_unique<Solver>(ground)) {
  auto& clp = solver_->clp;
  clp.setLogLevel(0);
  clp.setOptimizationDirection(1.0);  // the values stand negated
  std::vector<double> low;
  std::vector<double> high;
  for (int job = 0; job < ground.jobs(); ++job) low.push_back(-COIN_DBL_MAX), high.push_back(1.0);
  for (int slot = 0; slot < ground.slots(); ++slot)
    low.push_back(ground.locked_in(slot).count > 0 ? 1.0 : -COIN_DBL_MAX), high.push_back(1.0);
  for (int day = 0; day < ground.instance().days; ++day) low.push_back(-COIN_DBL_MAX), high.push_back(ground.rigs(day));
  clp.resize(static_cast<int>(low.size()), 0);
  for (std::size_t row = 0; row < low.size(); ++row) clp.setRowBounds(static_cast<int>(row), low[row], high[row]);
}

Master::~Master() = default;

void Master::take(const Pool& pool) {
  const auto& columns = pool.columns();
  const auto& ground = solver_->ground;
  std::vector<int> rows;
  std::vector<double> ones;
  std::vector<CoinBigIndex> starts{0};
  std::vector<double> low;
  std::vector<double> high;
  std::vector<double> costs;
  for (; solver_->taken < columns.size(); ++solver_->taken) {
    const Column& column = columns[solver_->taken];
    for (const int job : column.stops.jobs())
      if (!ground.locked(job)) rows.push_back(job);
    rows.push_back(ground.jobs() + column.slot);
    if (column.rig) rows.push_back(ground.jobs() + ground.slots() + ground.day_of(column.slot));
    for (std::size_t cut = 0; cut < solver_->cuts.size(); ++cut)
      if (holds_two(solver_->cuts[cut], column.stops)) rows.push_back(solver_->first_cut() + static_cast<int>(cut));
    starts.push_back(static_cast<CoinBigIndex>(rows.size()));
    costs.push_back(-column.value);
  }
  ones.assign(rows.size(), 1.0);
  low.assign(costs.size(), 0.0);
  high.assign(costs.size(), COIN_DBL_MAX);
  if (!costs.empty())
    solver_->clp.addColumns(static_cast<int>(costs.size()), low.data(), high.data(), costs.data(), starts.data(), rows.data(), ones.data());
}

void Master::cut(const Pool& pool, const std::vector<Triple>& triples) {
  std::vector<int> entries;
  std::vector<CoinBigIndex> starts{0};
  for (const auto& triple : triples) {
    for (std::size_t column = 0; column < solver_->taken; ++column)
      if (holds_two(triple, pool.columns()[column].stops)) entries.push_back(static_cast<int>(column));
    starts.push_back(static_cast<CoinBigIndex>(entries.size()));
  }
  const std::vector<double> low(triples.size(), -COIN_DBL_MAX);
  const std::vector<double> high(triples.size(), 1.0);
  const std::vector<double> ones(entries.size(), 1.0);
  solver_->clp.addRows(static_cast<int>(triples.size()), low.data(), high.data(), starts.data(), entries.data(), ones.data());
  solver_->cuts.insert(solver_->cuts.end(), triples.begin(), triples.end());
}

bool Master::solve(const std::function<bool()>& stop) {
  if (solver_->taken == 0) return true;  // CLP cannot do without columns
  Watch watch(stop);
  solver_->clp.passInEventHandler(&watch);
  solver_->clp.primal(0, 1);
  return solver_->clp.status() == 0;
}

bool Master::resolve(const std::function<bool()>& stop) {
  Watch watch(stop);
  solver_->clp.passInEventHandler(&watch);
  solver_->clp.dual(0, 1);
  return solver_->clp.status() == 0;
}

double Master::value() const { return solver_->taken == 0 ? 0.0 : -solver_->clp.objectiveValue(); }

Prices Master::prices() const {
  const auto& ground = solver_->ground;
  const auto jobs = static_cast<std::size_t>(ground.jobs());
  const auto slots = static_cast<std::size_t>(ground.slots());
  const auto days = static_cast<std::size_t>(ground.instance().days);
  Prices prices{std::vector<double>(jobs), std::vector<double>(slots), std::vector<double>(days)};
  for (const auto& triple : solver_->cuts) prices.cuts.push_back({triple, 0.0});
  if (solver_->taken == 0) return prices;
  const double* dual = solver_->clp.dualRowSolution();
  for (std::size_t job = 0; job < jobs; ++job) prices.job[job] = std::max(0.0, -dual[job]);
  for (std::size_t slot = 0; slot < slots; ++slot) {
    const bool must = ground.locked_in(static_cast<int>(slot)).count > 0;
    prices.slot[slot] = must ? -dual[jobs + slot] : std::max(0.0, -dual[jobs + slot]);
  }
  for (std::size_t day = 0; day < days; ++day) prices.rig[day] = std::max(0.0, -dual[jobs + slots + day]);
  for (std::size_t cut = 0; cut < prices.cuts.size(); ++cut)
    prices.cuts[cut].price = std::max(0.0, -dual[solver_->first_cut() + static_cast<int>(cut)]);
  return prices;
}

std::vector<double> Master::shares() const {
  const double* x = solver_->clp.primalColumnSolution();
  return {x, x + solver_->taken};
}

void Master::insist(const Pool& pool, std::size_t column) {
  const auto& columns = pool.columns();
  const auto& kept = columns[column];
  const auto clash = [&](const Column& other) {
    return other.slot == kept.slot || std::ranges::any_of(kept.stops.jobs(), [&](int job) {
             return std::ranges::find(other.stops.jobs(), job) != other.stops.jobs().end();
           });
  };
  for (std::size_t i = 0; i < solver_->taken; ++i)
    if (i != column && clash(columns[i])) solver_->clp.setColumnUpper(static_cast<int>(i), 0.0);
  solver_->clp.setColumnLower(static_cast<int>(column), 1.0);
}

void Master::release() {
  for (int column = 0; column < solver_->clp.numberColumns(); ++column) solver_->clp.setColumnBounds(column, 0.0, COIN_DBL_MAX);
}

}  // namespace plan
