// A number that is not known exactly: its best value, how far it may lie, and hard limits. Parameters enter the model as these.
#pragma once

namespace units {

struct Uncertain {
  double value = 0.0;         // the best single value: the median
  double spread_ln_sd = 0.0;  // standard deviation of ln(value) between trees or sites; 0 = taken as known
  double lowest = 0.0;        // draws are kept inside [lowest, highest]
  double highest = 0.0;
};

}  // namespace units
