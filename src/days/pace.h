// Work whose hours follow a crew's pace: the pace is lognormal with median 1. docs/model/days.md (4)-(6).
#pragma once

namespace days {

struct PacedWork {
  double median_h;  // at the usual pace, >= 0
  double ln_sd;     // of the pace, >= 0; 0 is a crew of clockwork
};

// Chance that the work takes at most `limit_h`; 0 below 0 and for minus infinity.
[[nodiscard]] double chance_within(PacedWork work, double limit_h);

// Expected hours: median_h exp(ln_sd^2 / 2).
[[nodiscard]] double expected(PacedWork work);

// Expected hours of the work if it is broken off at `limit_h`, >= 0: the limited expected value of a lognormal variable (Klugman,
// Panjer & Willmot, Loss Models, appendix A).
[[nodiscard]] double expected_up_to(PacedWork work, double limit_h);

}  // namespace days
