#include "app/typed.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <string>

#include "units/us_customary.h"

namespace app {
namespace {

bool blank(char c) { return c == ' ' || c == '\t'; }
bool digit(char c) { return c >= '0' && c <= '9'; }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

// Cuts letters off the end, in lower case.
std::string cut_word(std::string_view& text) {
  std::size_t from = text.size();
  while (from > 0 && std::isalpha(static_cast<unsigned char>(text[from - 1])) != 0) --from;
  std::string word{text.substr(from)};
  std::transform(word.begin(), word.end(), word.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  text = trimmed(text.substr(0, from));
  return word;
}

// One or two digits.
std::optional<int> small_number(std::string_view text) {
  if (text.empty() || text.size() > 2 || !std::all_of(text.begin(), text.end(), digit)) return std::nullopt;
  return std::stoi(std::string{text});
}

std::optional<std::chrono::minutes> typed_clock(std::string_view text) {
  const std::string half = cut_word(text);
  if (!half.empty() && half != "am" && half != "pm") return std::nullopt;
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos && half.empty()) return std::nullopt;
  const auto hour = small_number(text.substr(0, colon));
  const auto minute = colon == std::string_view::npos ? std::optional{0} : small_number(text.substr(colon + 1));
  const bool two_digits = colon == std::string_view::npos || text.size() - colon == 3;
  if (!hour || !minute || !two_digits || *minute > 59) return std::nullopt;
  if (half.empty()) return *hour > 23 ? std::nullopt : std::optional{std::chrono::minutes{60 * *hour + *minute}};
  if (*hour < 1 || *hour > 12) return std::nullopt;
  return std::chrono::minutes{60 * (*hour % 12 + (half == "pm" ? 12 : 0)) + *minute};
}

// An amount's number and unit, the number as text.
std::optional<units::Litres> amount_of(std::string_view number, const std::string& unit, UnitSystem units) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), value, std::chars_format::fixed);
  if (error != std::errc{} || end != number.data() + number.size() || !std::isfinite(value) || value < 0.0) return std::nullopt;
  if (unit == "gal" || (unit.empty() && units == UnitSystem::us)) return units::Litres{value * units::us::litres_per_gallon};
  if (unit == "l" || unit.empty()) return units::Litres{value};
  return std::nullopt;
}

}  // namespace

units::UtcTime TypedTime::in(const units::ZoneOffsets& zone, units::LocalDay day_meant) const {
  return instant ? *instant : zone.to_utc(units::LocalTime{day.value_or(day_meant)} + clock);
}

std::optional<TypedTime> typed_time(std::string_view text) {
  text = trimmed(text);
  if (const auto instant = units::parse_instant(text)) return TypedTime{instant, std::nullopt, {}};
  TypedTime typed;
  constexpr std::size_t date = 10;
  if (text.size() > date && (blank(text[date]) || text[date] == 'T')) {
    typed.day = units::parse_day(text.substr(0, date));
    if (!typed.day) return std::nullopt;
    text = trimmed(text.substr(date + 1));
  }
  const auto clock = typed_clock(text);
  if (!clock) return std::nullopt;
  typed.clock = *clock;
  return typed;
}

std::optional<units::Litres> typed_amount(std::string_view text, UnitSystem units) {
  text = trimmed(text);
  const std::string unit = cut_word(text);
  return amount_of(text, unit, units);
}

std::optional<TypedReading> typed_reading(std::string_view text, UnitSystem units) {
  std::string_view rest = trimmed(text);
  const std::string unit = cut_word(rest);
  std::size_t from = rest.size();
  while (from > 0 && !blank(rest[from - 1])) --from;
  const auto time = typed_time(rest.substr(0, from));
  const auto amount = amount_of(rest.substr(from), unit, units);
  if (!time || !amount) return std::nullopt;
  return TypedReading{*time, *amount};
}

}  // namespace app
