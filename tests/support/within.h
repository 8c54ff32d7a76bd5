// Comparison with an absolute tolerance that the test states: CHECK(x == within(3.075, 0.0005)).
#pragma once
#include <cmath>
#include <ostream>

struct Within {
  double expected, tolerance;
  // The last ulps of a printed tolerance are not the model's business: 82.05 against 82 +- 0.05 is inside.
  friend bool operator==(double value, const Within& w) { return std::abs(value - w.expected) <= w.tolerance * (1.0 + 1e-9); }
  friend std::ostream& operator<<(std::ostream& out, const Within& w) { return out << w.expected << " +- " << w.tolerance; }
};

[[nodiscard]] inline Within within(double expected, double tolerance) { return {expected, tolerance}; }
