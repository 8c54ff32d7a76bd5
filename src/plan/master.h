// The linear programme over a pool of columns: how much of each crew's day to take, no job twice, no day out of rigs. Solved by CLP.
#pragma once
#include <functional>
#include <memory>
#include <vector>

#include "plan/prices.h"

namespace plan {

class Master {
 public:
  // The ground must outlive this.
  explicit Master(const Ground& ground);
  ~Master();
  Master(const Master&) = delete;
  Master& operator=(const Master&) = delete;

  // Takes over the columns that the pool has and this has not yet.
  void take(const Pool& pool);
  // Holds the programme to these cuts as well.
  void cut(const Pool& pool, const std::vector<Triple>& triples);
  // Solves from where it stood. False: `stop` said so, or the solver gave up; prices and shares are then those of wherever it was.
  // Every slot with locked jobs needs at least one column.
  [[nodiscard]] bool solve(const std::function<bool()>& stop);

  // The same after columns were insisted on, which leaves the prices nearly right.
  [[nodiscard]] bool resolve(const std::function<bool()>& stop);

  [[nodiscard]] double value() const;  // without what left-out promises cost
  [[nodiscard]] Prices prices() const;
  // How much of each column is taken, by its place in the pool.
  [[nodiscard]] std::vector<double> shares() const;
  // A column must be taken in full, and none that shares a job or the slot with it: for dives.
  void insist(const Pool& pool, std::size_t column);
  // Every column free again.
  void release();

 private:
  struct Solver;
  std::unique_ptr<Solver> solver_;
};

}  // namespace plan
