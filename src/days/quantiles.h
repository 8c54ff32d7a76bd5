// What many draws of one figure come to: quantiles, mean, and how far the mean may be off.
#pragma once
#include <optional>
#include <vector>

namespace days {

// Quantiles over the draws; empty where that share of draws does not finish.
struct Quantiles {
  std::optional<double> p10, p50, p90;
};

// Value below which `share` (0..1) of the draws lie, read between them at definition 8 of Hyndman & Fan (1996), which a small sample does
// not bias. Draws that never finish are infinite; empty where the value would lie among them. At least one draw, in any order.
[[nodiscard]] std::optional<double> quantile(std::vector<double> by_draw, double share);
[[nodiscard]] Quantiles quantiles(const std::vector<double>& by_draw);

// The same of draws that do not weigh alike: `share_of` each draw, >= 0, sum 1, worth 20 equal draws or more. Equal ones give the figures
// above to rounding: a draw stands at the cumulated share up to and with it less a third of its own, over 1 + 1/(3 n), n the number of
// equal draws that are worth as much.
[[nodiscard]] std::optional<double> quantile(const std::vector<double>& by_draw, const std::vector<double>& share_of, double share);
[[nodiscard]] Quantiles quantiles(const std::vector<double>& by_draw, const std::vector<double>& share_of);

// At least one draw.
[[nodiscard]] double mean(const std::vector<double>& by_draw);

// Standard error of the mean over draws of a low-discrepancy sequence; 0 for fewer than two runs of it. Runs of consecutive draws, each a
// small net of its own, are taken for independent; they are not, they fill each other's gaps, so this errs to the safe side
// (docs/model/days.md, What was measured).
[[nodiscard]] double standard_error(const std::vector<double>& by_draw);

}  // namespace days
