#include "days/pace.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace days {
namespace {

double normal_share_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

}  // namespace

double chance_within(PacedWork work, double limit_h) {
  if (work.median_h <= 0.0 || work.ln_sd <= 0.0) return work.median_h <= limit_h ? 1.0 : 0.0;
  if (limit_h <= 0.0) return 0.0;
  return normal_share_below(std::log(limit_h / work.median_h) / work.ln_sd);
}

double expected(PacedWork work) { return work.median_h * std::exp(0.5 * work.ln_sd * work.ln_sd); }

double expected_up_to(PacedWork work, double limit_h) {
  if (work.median_h <= 0.0 || work.ln_sd <= 0.0) return std::min(work.median_h, limit_h);
  if (limit_h <= 0.0) return 0.0;
  const double z = std::log(limit_h / work.median_h) / work.ln_sd;
  return expected(work) * normal_share_below(z - work.ln_sd) + limit_h * (1.0 - normal_share_below(z));
}

}  // namespace days
