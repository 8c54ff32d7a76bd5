// How far measured flow lies from what is said, by how much is said: an 80 % range from errors made on hours that the fit had not seen.
// docs/model/sapflow.md eq. (8).
#pragma once
#include <vector>

namespace sapflow {

// An hour left out of a fit and then predicted.
struct Miss {
  double flow = 0.0;  // by the weather alone, at a level of 1
  double measured = 0.0;
  double ln_level = 0.0;  // as known when the hour was predicted, with its variance
  double ln_level_variance = 0.0;
};

struct Range {
  double p10 = 0.0, p50 = 0.0, p90 = 0.0;
};

class Spread {
 public:
  // Groups of equal count by flow, 2 to 10 of them; no misses give no width beside the level's own.
  Spread(std::vector<Miss> misses, double hours_alike);

  // Around the flow at the level exp(ln_level). What hours err by goes with the level. A level less well known than those of the misses
  // adds its error as a square; one better known takes none away. p10 is never below 0 nor above p50.
  [[nodiscard]] Range around(double flow, double ln_level, double ln_level_variance) const;

 private:
  struct Group {
    double flow;
    double below, above;       // distance to the 10 % and 90 % quantiles at a level of 1
    double ln_level_variance;  // mean over the group
  };
  [[nodiscard]] Group at(double flow) const;

  std::vector<Group> groups_;  // by rising flow
};

}  // namespace sapflow
