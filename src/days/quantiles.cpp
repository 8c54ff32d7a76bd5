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

namespace {

// Draws in rising order, each with the place it stands at.
struct Placed {
  std::vector<double> value, place;
};

Placed placed(const std::vector<double>& by_draw, const std::vector<double>& share_of) {
  std::vector<std::size_t> order(by_draw.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return by_draw[a] < by_draw[b]; });
  double squares = 0.0, sum = 0.0;
  for (const double share : share_of) squares += share * share;
  Placed all;
  for (const std::size_t draw : order) {
    if (share_of[draw] <= 0.0) continue;
    sum += share_of[draw];
    all.value.push_back(by_draw[draw]);
    all.place.push_back((sum - share_of[draw] / 3.0) / (1.0 + squares / 3.0));
  }
  return all;
}

std::optional<double> read_at(const Placed& all, double share) {
  const auto above = std::lower_bound(all.place.begin(), all.place.end(), share);
  const auto i = static_cast<std::size_t>(above - all.place.begin());
  const double high = i < all.value.size() ? all.value[i] : all.value.back();
  if (!std::isfinite(high)) return std::nullopt;
  if (i == 0 || i == all.value.size()) return high;
  return all.value[i - 1] + (high - all.value[i - 1]) * (share - all.place[i - 1]) / (all.place[i] - all.place[i - 1]);
}

}  // namespace

std::optional<double> quantile(const std::vector<double>& by_draw, const std::vector<double>& share_of, double share) {
  return read_at(placed(by_draw, share_of), share);
}

Quantiles quantiles(const std::vector<double>& by_draw, const std::vector<double>& share_of) {
  const Placed all = placed(by_draw, share_of);
  return {read_at(all, 0.1), read_at(all, 0.5), read_at(all, 0.9)};
}

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
