#include "cli/call_progress.h"

#include <fmt/format.h>

#include <algorithm>

#include <ostream>

namespace cli {

void CallProgress::operator()(const net::Progress& progress) const {
  constexpr std::size_t worth_telling = 20;  // of fewer nobody waits
  if (progress.total < worth_telling) return;
  const double spent_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun_).count();
  const double per_second = static_cast<double>(progress.done) / std::max(spent_s, 1e-3);
  const auto left_s = static_cast<long>(static_cast<double>(progress.total - progress.done) / std::max(per_second, 1e-3) + 0.5);
  const std::string line = fmt::format("weather: {} of {}, {:.1f} a second, about {}:{:02} left", progress.done, progress.total, per_second,
                                       left_s / 60, left_s % 60);
  if (terminal_)
    *err_ << "\r" << line << "   " << (progress.done == progress.total ? "\n" : "") << std::flush;
  else if (progress.done % std::max<std::size_t>(progress.total / 10, 1) == 0)
    *err_ << line << '\n';
}

void SearchProgress::operator()(double share) {
  constexpr int step = 5;
  const int percent = std::min(100, step * static_cast<int>(100.0 * share / step));
  if (!terminal_ || percent == told_) return;
  told_ = percent;
  *err_ << fmt::format("\rplan: {} % of the search", percent) << (percent == 100 ? "\r\033[K" : "") << std::flush;
}

}  // namespace cli
