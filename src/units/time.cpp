#include "units/time.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdio>

namespace units {
namespace {

using std::chrono::days;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

// Reads exactly `width` decimal digits at `at`.
std::optional<int> digits(std::string_view text, std::size_t at, std::size_t width) {
  if (at + width > text.size()) return std::nullopt;
  int number = 0;
  for (std::size_t i = at; i < at + width; ++i) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    number = number * 10 + (text[i] - '0');
  }
  return number;
}

std::string printed(const char* format, int a, int b = 0, int c = 0, int d = 0, int e = 0) {
  std::array<char, 40> buffer{};
  const int n = std::snprintf(buffer.data(), buffer.size(), format, a, b, c, d, e);
  return {buffer.data(), static_cast<std::size_t>(n)};
}

struct Civil {
  int year, month, day, hour, minute;
};

template <class TimePoint>
Civil civil(TimePoint time) {
  const auto day = std::chrono::floor<days>(time);
  const std::chrono::year_month_day ymd{day};
  const auto minute = std::chrono::floor<minutes>(time - day).count();
  return {static_cast<int>(ymd.year()), static_cast<int>(static_cast<unsigned>(ymd.month())),
          static_cast<int>(static_cast<unsigned>(ymd.day())), static_cast<int>(minute / 60), static_cast<int>(minute % 60)};
}

}  // namespace

ZoneOffsets::ZoneOffsets(std::string name, std::vector<Span> spans) : name_(std::move(name)), spans_(std::move(spans)) {
  if (spans_.empty()) spans_.push_back({UtcTime{}, seconds{0}});
}

ZoneOffsets ZoneOffsets::utc() { return {"UTC", {{UtcTime{}, seconds{0}}}}; }

LocalTime ZoneOffsets::to_local(UtcTime instant) const {
  auto next = std::upper_bound(spans_.begin(), spans_.end(), instant, [](UtcTime t, const Span& span) { return t < span.from; });
  const Span& span = next == spans_.begin() ? spans_.front() : *std::prev(next);
  return LocalTime{(instant + span.offset).time_since_epoch()};
}

UtcTime ZoneOffsets::to_utc(LocalTime wall) const {
  for (std::size_t i = 0; i < spans_.size(); ++i) {
    const UtcTime candidate{wall.time_since_epoch() - spans_[i].offset};
    const bool last = i + 1 == spans_.size();
    if (!last && candidate >= spans_[i + 1].from) continue;
    // Before the span began although every earlier span has ended: the wall clock skipped this time.
    return i > 0 && candidate < spans_[i].from ? spans_[i].from : candidate;
  }
  return UtcTime{wall.time_since_epoch()};
}

LocalDay ZoneOffsets::day_of(UtcTime instant) const { return std::chrono::floor<days>(to_local(instant)); }
UtcTime ZoneOffsets::start_of(LocalDay day) const { return to_utc(LocalTime{day}); }
UtcTime ZoneOffsets::end_of(LocalDay day) const { return to_utc(LocalTime{day + days{1}}); }

std::optional<LocalDay> parse_day(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto y = digits(text, 0, 4), m = digits(text, 5, 2), d = digits(text, 8, 2);
  if (!y || !m || !d) return std::nullopt;
  const std::chrono::year_month_day ymd{std::chrono::year{*y}, std::chrono::month{static_cast<unsigned>(*m)},
                                        std::chrono::day{static_cast<unsigned>(*d)}};
  if (!ymd.ok()) return std::nullopt;
  return LocalDay{ymd};
}

std::optional<UtcTime> parse_instant(std::string_view text) {
  if (text.size() < 17) return std::nullopt;
  const auto day = parse_day(text.substr(0, 10));
  const auto hh = digits(text, 11, 2), mm = digits(text, 14, 2);
  if (!day || (text[10] != 'T' && text[10] != ' ') || text[13] != ':' || !hh || !mm || *hh > 23 || *mm > 59) return std::nullopt;
  std::size_t at = 16;
  int ss = 0;
  if (text[at] == ':') {
    const auto second = digits(text, at + 1, 2);
    if (!second || *second > 59) return std::nullopt;
    ss = *second;
    at += 3;
  }
  const UtcTime unshifted = UtcTime{day->time_since_epoch()} + hours{*hh} + minutes{*mm} + seconds{ss};
  const std::string_view zone = text.substr(std::min(at, text.size()));
  if (zone == "Z") return unshifted;
  if (zone.size() != 6 || (zone[0] != '+' && zone[0] != '-') || zone[3] != ':') return std::nullopt;
  const auto zh = digits(zone, 1, 2), zm = digits(zone, 4, 2);
  if (!zh || !zm || *zh > 15 || *zm > 59) return std::nullopt;
  const seconds offset = hours{*zh} + minutes{*zm};
  return zone[0] == '+' ? unshifted - offset : unshifted + offset;
}

std::string to_text(LocalDay day) {
  const Civil c = civil(day);
  return printed("%04d-%02d-%02d", c.year, c.month, c.day);
}

std::string to_text(UtcTime instant) {
  const Civil c = civil(instant);
  return printed("%04d-%02d-%02dT%02d:%02dZ", c.year, c.month, c.day, c.hour, c.minute);
}

std::string to_text(LocalTime wall) {
  const Civil c = civil(wall);
  return printed("%04d-%02d-%02dT%02d:%02d", c.year, c.month, c.day, c.hour, c.minute);
}

int day_of_year(LocalDay day) {
  const std::chrono::year_month_day ymd{day};
  const LocalDay first{ymd.year() / std::chrono::January / 1};
  return static_cast<int>((day - first).count()) + 1;
}

}  // namespace units
