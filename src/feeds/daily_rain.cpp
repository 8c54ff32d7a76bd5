#include "feeds/daily_rain.h"

#include <fmt/format.h>

#include <algorithm>

#include "feeds/reply.h"
#include "feeds/text.h"

namespace feeds {
namespace {

using units::Result;

constexpr std::size_t most_days = 40'000;

struct Limits {
  double lowest, highest;
};
constexpr Limits rain_limits_mm{0.0, 2000.0}, temperature_limits_c{-90.0, 60.0};

Result<std::optional<double>> figure(const JsonNode& row, std::string_view key, Limits limits) {
  const auto node = row.find(key);
  if (!node || node->is_null()) return std::optional<double>{};
  std::optional<double> value;
  if (node->is_text()) {
    const std::string_view text = trimmed(*node->text());
    if (text.empty()) return std::optional<double>{};
    value = parse_number(text);
  } else if (const auto number = node->number()) {
    value = *number;
  }
  if (!value || *value < limits.lowest || *value > limits.highest)
    return tl::make_unexpected(node->fault(fmt::format("expected a number from {} to {}", limits.lowest, limits.highest)));
  return value;
}

Result<DailyRain> read_day(const JsonNode& row) {
  const auto date = row.need("DATE");
  if (!date) return tl::make_unexpected(date.error());
  const auto day = date->is_text() ? units::parse_day(*date->text()) : std::nullopt;
  if (!day) return tl::make_unexpected(date->fault("expected a day such as 2026-07-06"));
  const auto rain = figure(row, "PRCP", rain_limits_mm);
  const auto tmax = figure(row, "TMAX", temperature_limits_c), tmin = figure(row, "TMIN", temperature_limits_c);
  for (const auto* told : {&rain, &tmax, &tmin})
    if (!*told) return tl::make_unexpected(told->error());
  return DailyRain{*day, *rain, *tmax, *tmin};
}

}  // namespace

Result<std::vector<DailyRain>> read_daily_rain(const std::string& name, std::string_view content) {
  const auto document = parse_reply(name, content, "daily rain");
  if (!document) return tl::make_unexpected(document.error());
  const JsonNode rows = document->root();
  if (!rows.is_array()) return units::fault(name, "", "expected a list of days");
  if (rows.size() > most_days)
    return units::fault(name, fmt::format("{} days", rows.size()), fmt::format("expected at most {}", most_days));

  std::vector<DailyRain> days;
  std::string station;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const JsonNode row = rows.item(i);
    const auto whose = row.need("STATION");
    if (!whose) return tl::make_unexpected(whose.error());
    const auto id = whose->text();
    if (!id) return tl::make_unexpected(id.error());
    if (i == 0) station = *id;
    if (*id != station) return tl::make_unexpected(whose->fault("expected one station, " + for_message(station)));
    auto day = read_day(row);
    if (!day) return tl::make_unexpected(day.error());
    days.push_back(*std::move(day));
  }
  std::stable_sort(days.begin(), days.end(), [](const DailyRain& a, const DailyRain& b) { return a.day < b.day; });
  const auto twice = std::adjacent_find(days.begin(), days.end(), [](const DailyRain& a, const DailyRain& b) { return a.day == b.day; });
  if (twice != days.end()) return units::fault(name, units::to_text(twice->day), "expected each day once");
  return days;
}

}  // namespace feeds
