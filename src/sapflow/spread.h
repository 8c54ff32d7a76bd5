// How far measured flow lies from what is said, by how much is said: an 80 % range from errors made on hours that the fit had not seen.
// docs/model/sapflow.md eq. (8).
#pragma once
#include <vector>

namespace sapflow {

// An hour left out of a fit and then predicted.
struct Miss {
  double said = 0.0;
  double measured = 0.0;
  double level_variance = 0.0;  // of ln(level) when it was said
};

struct Range {
  double p10 = 0.0, p50 = 0.0, p90 = 0.0;
};

class Spread {
 public:
  // Groups of equal count by what was said, 2 to 10 of them; no misses give no width beside the level's own.
  explicit Spread(std::vector<Miss> misses);

  // Around `said` with the given variance of ln(level): errors of the level and of the hour add as squares, so that the width seen on the
  // misses serves levels better and worse known than theirs. p10 is never below 0 nor above p50.
  [[nodiscard]] Range around(double said, double level_variance) const;

 private:
  struct Group {
    double said;
    double below, above;    // distance to the 10 % and 90 % quantiles
    double level_variance;  // mean over the group
  };
  std::vector<Group> groups_;
};

}  // namespace sapflow
