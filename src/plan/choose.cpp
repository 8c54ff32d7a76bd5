#include "plan/choose.h"

#include <CbcEventHandler.hpp>
#include <CbcHeuristic.hpp>
#include <CbcHeuristicRINS.hpp>
#include <CbcModel.hpp>
#include <CglClique.hpp>
#include <CglGomory.hpp>
#include <CglZeroHalf.hpp>
#include <OsiClpSolverInterface.hpp>
#include <cmath>
#include <map>

namespace plan {
namespace {

class Watch : public CbcEventHandler {
 public:
  explicit Watch(std::function<bool()> ends) : ends_(std::move(ends)) {}
  CbcAction event(CbcEvent /*what*/) override { return ends_ && ends_() ? CbcEventHandler::stop : noAction; }
  [[nodiscard]] CbcEventHandler* clone() const override { return new Watch(*this); }

 private:
  std::function<bool()> ends_;
};

// Rows that some column touches; a job in one column alone needs none.
struct Rows {
  std::vector<double> low;
  std::vector<double> high;
  int of_job(int job) { return of(job, -COIN_DBL_MAX, 1.0); }
  int of_slot(const Ground& ground, int slot) {
    return of(ground.jobs() + slot, ground.locked_in(slot).count > 0 ? 1.0 : -COIN_DBL_MAX, 1.0);
  }
  int of_day(const Ground& ground, int day) { return of(ground.jobs() + ground.slots() + day, -COIN_DBL_MAX, ground.rigs(day)); }

 private:
  int of(int key, double least, double most) {
    const auto [row, is_new] = index_.try_emplace(key, static_cast<int>(low.size()));
    if (is_new) low.push_back(least), high.push_back(most);
    return row->second;
  }
  std::map<int, int> index_;
};

void load(const Ground& ground, const std::vector<Column>& columns, OsiClpSolverInterface& solver) {
  Rows rows;
  std::vector<int> entries;
  std::vector<double> costs;
  std::vector<CoinBigIndex> starts{0};
  for (const auto& column : columns) {
    for (const int job : column.stops.jobs())
      if (!ground.locked(job)) entries.push_back(rows.of_job(job));
    entries.push_back(rows.of_slot(ground, column.slot));
    if (column.rig) entries.push_back(rows.of_day(ground, ground.day_of(column.slot)));
    starts.push_back(static_cast<CoinBigIndex>(entries.size()));
    costs.push_back(-column.value);
  }
  const auto count = static_cast<int>(columns.size());
  const std::vector<double> ones(entries.size(), 1.0);
  const std::vector<double> lower(columns.size(), 0.0);
  const std::vector<double> upper(columns.size(), 1.0);
  solver.loadProblem(count, static_cast<int>(rows.low.size()), starts.data(), entries.data(), ones.data(), lower.data(), upper.data(),
                     costs.data(), rows.low.data(), rows.high.data());
  for (int column = 0; column < count; ++column) solver.setInteger(column);
}

}  // namespace

Chosen choose(const Ground& ground, const std::vector<Column>& columns, const ChoiceLimits& limits) {
  OsiClpSolverInterface solver;
  solver.messageHandler()->setLogLevel(0);
  solver.setHintParam(OsiDoReducePrint, true, OsiHintTry);
  load(ground, columns, solver);
  CbcModel model(solver);
  model.setLogLevel(0);
  model.messageHandler()->setLogLevel(0);
  Watch watch(limits.stop);
  model.passInEventHandler(&watch);
  CglClique cliques;
  cliques.setStarCliqueReport(false);
  cliques.setRowCliqueReport(false);
  CglZeroHalf halves;
  CglGomory gomory;
  gomory.setLimit(300);
  model.addCutGenerator(&halves, 1, "halves");
  model.addCutGenerator(&cliques, 1, "cliques");
  model.addCutGenerator(&gomory, -99, "gomory");
  CbcRounding rounding(model);
  CbcHeuristicRINS rins(model);
  model.addHeuristic(&rounding);
  model.addHeuristic(&rins);
  constexpr double least_better = 1e-6;
  model.setCutoff(-(limits.above - ground.left_out()) - least_better);
  // The event handler is heard between rounds of the tree only: the root must not take long.
  model.setMaximumCutPassesAtRoot(20);
  model.setAllowableGap(1e-7);
  model.setAllowableFractionGap(0.0);
  if (limits.nodes > 0) model.setMaximumNodes(limits.nodes);
  model.initialSolve();
  model.branchAndBound();
  Chosen chosen;
  // Stopped before the root was solved, CBC knows no bound and says something absurd.
  constexpr double absurd = 1e30;
  const double possible = model.getBestPossibleObjValue();
  chosen.bound = std::abs(possible) < absurd ? ground.left_out() - possible : absurd;
  if (model.isProvenOptimal() || model.isProvenInfeasible()) chosen.bound = limits.above;
  if (model.bestSolution() != nullptr) {
    const double* x = model.bestSolution();
    std::vector<Column> taken;
    double worth = ground.left_out();
    for (std::size_t i = 0; i < columns.size(); ++i)
      if (x[i] > 0.5) taken.push_back(columns[i]), worth += columns[i].value;
    if (worth > limits.above) {
      chosen.columns = std::move(taken);
      if (model.isProvenOptimal()) chosen.bound = worth;
    }
  }
  return chosen;
}

}  // namespace plan
