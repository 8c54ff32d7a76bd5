#include "days/quantiles.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "units/lanes.h"

namespace days {

std::optional<double> quantile(std::vector<double> by_draw, double share) {
  std::sort(by_draw.begin(), by_draw.end());
  const auto last = static_cast<double>(by_draw.size() - 1);
  const double position = std::clamp((last + 4.0 / 3.0) * share - 2.0 / 3.0, 0.0, last);
  const auto below = static_cast<std::size_t>(position);
  const double low = by_draw[below], high = by_draw[std::min(below + 1, by_draw.size() - 1)];
  if (!std::isfinite(high)) return std::isfinite(low) && position == static_cast<double>(below) ? std::optional{low} : std::nullopt;
  return low + (position - static_cast<double>(below)) * (high - low);
}

Quantiles quantiles(const std::vector<double>& by_draw) { return {quantile(by_draw, 0.1), quantile(by_draw, 0.5), quantile(by_draw, 0.9)}; }

double mean(const std::vector<double>& by_draw) {
  return std::accumulate(by_draw.begin(), by_draw.end(), 0.0) / static_cast<double>(by_draw.size());
}

double standard_error(const std::vector<double>& by_draw) {
  constexpr std::size_t run = units::Lanes::count;
  std::vector<double> means;
  for (std::size_t first = 0; first + run <= by_draw.size(); first += run)
    means.push_back(std::accumulate(by_draw.begin() + static_cast<std::ptrdiff_t>(first),
                                    by_draw.begin() + static_cast<std::ptrdiff_t>(first + run), 0.0) /
                    static_cast<double>(run));
  if (means.size() < 2) return 0.0;
  const double middle = mean(means);
  double squares = 0.0;
  for (const double m : means) squares += (m - middle) * (m - middle);
  const auto n = static_cast<double>(means.size());
  return std::sqrt(squares / (n * (n - 1.0)));
}

}  // namespace days
