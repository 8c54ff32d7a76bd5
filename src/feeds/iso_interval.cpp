#include "feeds/iso_interval.h"

#include <charconv>

namespace feeds {
namespace {

using std::chrono::seconds;

constexpr seconds longest = std::chrono::days{400};

// Takes "12H" off the front of `text` where the designator fits; leaves `text` alone otherwise.
std::optional<seconds> take(std::string_view& text, char designator, seconds unit) {
  int count = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), count);
  const auto used = static_cast<std::size_t>(end - text.data());
  if (error != std::errc{} || used > 5 || used >= text.size() || text[used] != designator || count < 0) return std::nullopt;
  text.remove_prefix(used + 1);
  return count * unit;
}

std::optional<seconds> parse_duration(std::string_view text) {
  if (text.empty() || text.front() != 'P') return std::nullopt;
  text.remove_prefix(1);
  seconds sum{0};
  if (const auto days = take(text, 'D', std::chrono::days{1})) sum += *days;
  if (!text.empty() && text.front() == 'T') {
    text.remove_prefix(1);
    if (const auto part = take(text, 'H', std::chrono::hours{1})) sum += *part;
    if (const auto part = take(text, 'M', std::chrono::minutes{1})) sum += *part;
    if (const auto part = take(text, 'S', seconds{1})) sum += *part;
  }
  if (!text.empty() || sum <= seconds{0} || sum > longest) return std::nullopt;
  return sum;
}

}  // namespace

std::optional<IsoInterval> parse_interval(std::string_view text) {
  const auto slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto from = units::parse_instant(text.substr(0, slash));
  const auto duration = parse_duration(text.substr(slash + 1));
  if (!from || !duration) return std::nullopt;
  return IsoInterval{*from, *from + *duration};
}

}  // namespace feeds
