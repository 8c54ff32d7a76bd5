#include "uptake/readings.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace uptake {
namespace {

// ln of Student's density at `error_l`, less what all draws share.
double ln_likelihood(double error_l, const ReadingError& error) {
  const double z = error_l / error.mark_l;
  return -0.5 * (error.tail + 1.0) * std::log1p(z * z / error.tail);
}

// Shares in proportion to exp(power x ln likelihood), and how many equal draws they are worth.
Weights at_power(const std::vector<double>& ln, double power) {
  const double most = *std::max_element(ln.begin(), ln.end());
  Weights weights{std::vector<double>(ln.size()), 0.0, power};
  double sum = 0.0, squares = 0.0;
  for (std::size_t i = 0; i < ln.size(); ++i) sum += weights.share[i] = std::exp(power * (ln[i] - most));
  for (double& share : weights.share) {
    share /= sum;
    squares += share * share;
  }
  weights.effective = 1.0 / squares;
  return weights;
}

std::optional<ReadingFault> fault_of(const Reading& reading, double before_l, double latest_h, double most_l) {
  if (!(reading.hours >= 0.0)) return ReadingFault::before_opening;
  if (reading.hours > latest_h) return ReadingFault::too_late;
  if (!(reading.litres >= 0.0)) return ReadingFault::below_zero;
  if (reading.litres > most_l) return ReadingFault::above_dose;
  if (reading.litres < before_l) return ReadingFault::falls;
  return std::nullopt;
}

// Student's distribution. The substitution z = sqrt(tail) tan(a) turns its density into cos(a)^(tail - 1), which is summed over equal steps
// of the angle and read between them: to 1e-5 for tails from 2 on.
class Student {
 public:
  explicit Student(double tail) : root_(std::sqrt(tail)), below_(cells + 1, 0.0) {
    for (int i = 0; i < cells; ++i)
      below_[static_cast<std::size_t>(i) + 1] =
          below_[static_cast<std::size_t>(i)] + std::pow(std::sin(std::numbers::pi * (i + 0.5) / cells), tail - 1.0);
  }

  // Share above `z`.
  [[nodiscard]] double above(double z) const {
    const double place = (0.5 - std::atan(z / root_) / std::numbers::pi) * cells;
    const auto cell = static_cast<std::size_t>(std::clamp(place, 0.0, cells - 1.0));
    const double share = place - static_cast<double>(cell);
    return ((1.0 - share) * below_[cell] + share * below_[cell + 1]) / below_.back();
  }

 private:
  static constexpr int cells = 1024;
  double root_;
  std::vector<double> below_;  // cumulative, over angles from one right angle to the other
};

}  // namespace

tl::expected<std::vector<Reading>, RefusedReading> in_order(std::span<const Reading> readings, double latest_h, double most_l) {
  std::vector<std::size_t> order(readings.size());
  std::iota(order.begin(), order.end(), 0u);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return readings[a].hours != readings[b].hours ? readings[a].hours < readings[b].hours : readings[a].litres < readings[b].litres;
  });
  std::vector<Reading> sorted;
  for (const std::size_t i : order) {
    const double before_l = sorted.empty() ? 0.0 : sorted.back().litres;
    if (const auto why = fault_of(readings[i], before_l, latest_h, most_l)) return tl::make_unexpected(RefusedReading{i, *why});
    sorted.push_back(readings[i]);
  }
  return sorted;
}

Weights weigh(std::span<const Reading> readings, std::span<const std::vector<double>> volumes_l, std::size_t draws,
              const ReadingError& error) {
  std::vector<double> ln(draws, 0.0);
  for (std::size_t r = 0; r < readings.size(); ++r)
    for (std::size_t draw = 0; draw < draws; ++draw) ln[draw] += ln_likelihood(readings[r].litres - volumes_l[r][draw], error);
  Weights weights = at_power(ln, 1.0);
  const double least = std::min(error.least_draws, static_cast<double>(draws));
  if (weights.effective >= least) return weights;
  // The effective number falls as the power grows: halving the interval 40 times finds the power to 1e-12.
  double low = 0.0, high = 1.0;
  for (int round = 0; round < 40; ++round) {
    const double middle = 0.5 * (low + high);
    (at_power(ln, middle).effective >= least ? low : high) = middle;
  }
  return at_power(ln, low);
}

std::optional<OddReading> odd_reading(std::span<const Reading> readings, std::span<const std::vector<double>> volumes_l, std::size_t draws,
                                      const ReadingError& error) {
  const Student student{error.tail};
  std::optional<OddReading> odd;
  for (std::size_t r = 0; r < readings.size(); ++r) {
    const Weights before = weigh(readings.first(r), volumes_l, draws, error);
    const auto& volumes = volumes_l[r];
    double as_much = 0.0;  // chance of a reading of this volume or more
    for (std::size_t draw = 0; draw < draws; ++draw)
      as_much += before.share[draw] * student.above((readings[r].litres - volumes[draw]) / error.mark_l);
    if (as_much >= error.odd_chance && 1.0 - as_much >= error.odd_chance) continue;
    const double most = *std::max_element(volumes.begin(), volumes.begin() + static_cast<std::ptrdiff_t>(draws));
    odd = OddReading{r, as_much < error.odd_chance, student.above((readings[r].litres - most) / error.mark_l) < error.odd_chance};
  }
  return odd;
}

}  // namespace uptake
