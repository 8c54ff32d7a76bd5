#include "book/field.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "units/text.h"
#include "units/time.h"

namespace book {
namespace {

Field made(std::string name, FieldType type, std::string help) { return {std::move(name), type, std::move(help)}; }

// C0 and C1 controls and DEL; of these only a note may hold LF and tab.
bool has_control(std::string_view text, bool is_note) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    const auto byte = static_cast<unsigned char>(text[at]);
    if (is_note && (byte == '\n' || byte == '\t')) continue;
    if (byte < 0x20 || byte == 0x7F) return true;
    if (byte == 0xC2 && at + 1 < text.size() && static_cast<unsigned char>(text[at + 1]) < 0xA0) return true;
  }
  return false;
}

std::string with_line_feeds(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] == '\r' && at + 1 < text.size() && text[at + 1] == '\n') continue;
    out += text[at];
  }
  return out;
}

std::string with_limits(const char* what, const Field& field) {
  return std::string{"a "} + what + " from " + shortest(field.lowest) + " to " + shortest(field.highest);
}

units::Result<std::string> number(const Field& field, const std::string& text) {
  const auto value = units::parse_number(text);
  if (!value || *value < field.lowest || *value > field.highest)
    return units::fault(field.name, units::for_message(text), "expected " + takes(field));
  if (field.type == FieldType::whole && std::floor(*value) != *value) return units::fault(field.name, text, "expected " + takes(field));
  return shortest(*value == 0.0 ? 0.0 : *value);  // no -0
}

std::optional<std::string> clock(const std::string& text) {
  const auto instant = text.size() == 5 ? units::parse_instant("1970-01-01T" + text + "Z") : std::nullopt;
  return instant ? std::optional{text} : std::nullopt;
}

std::optional<std::string> yes_no(std::string text) {
  std::ranges::transform(text, text.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  constexpr std::array<std::string_view, 4> yes{"yes", "y", "true", "1"}, no{"no", "n", "false", "0"};
  if (std::ranges::find(yes, text) != yes.end()) return "yes";
  if (std::ranges::find(no, text) != no.end()) return "no";
  return std::nullopt;
}

// No record of trees reaches further; a slip of the keyboard does.
bool is_of_these_centuries(units::LocalDay day) {
  const auto year = std::chrono::year_month_day{day}.year();
  return year >= std::chrono::year{1900} && year < std::chrono::year{2200};
}

// The canonical text of what is neither free text nor a number.
std::optional<std::string> exact(const Field& field, const std::string& text) {
  switch (field.type) {
    case FieldType::day:
      if (const auto day = units::parse_day(text); day && is_of_these_centuries(*day)) return units::to_text(*day);
      return std::nullopt;
    case FieldType::instant:
      if (const auto instant = units::parse_instant(text);
          instant && is_of_these_centuries(units::LocalDay{std::chrono::floor<std::chrono::days>(*instant).time_since_epoch()}))
        return units::to_text(*instant);
      return std::nullopt;
    case FieldType::clock:
      return clock(text);
    case FieldType::yes_no:
      return yes_no(text);
    case FieldType::choice:
      for (const std::string& choice : field.choices)
        if (units::same_letters(choice, text)) return choice;
      return std::nullopt;
    default:
      return text;
  }
}

}  // namespace

Field Field::must() const {
  Field field = *this;
  field.required = true;
  return field;
}

Field Field::of_a_person() const {
  Field field = *this;
  field.personal = true;
  return field;
}

Field text_field(std::string name, std::string help) { return made(std::move(name), FieldType::text, std::move(help)); }
Field note_field(std::string name, std::string help) { return made(std::move(name), FieldType::note, std::move(help)); }
Field day_field(std::string name, std::string help) { return made(std::move(name), FieldType::day, std::move(help)); }
Field clock_field(std::string name, std::string help) { return made(std::move(name), FieldType::clock, std::move(help)); }
Field instant_field(std::string name, std::string help) { return made(std::move(name), FieldType::instant, std::move(help)); }
Field yes_no_field(std::string name, std::string help) { return made(std::move(name), FieldType::yes_no, std::move(help)); }

Field whole_field(std::string name, double lowest, double highest, std::string help) {
  Field field = number_field(std::move(name), lowest, highest, std::move(help));
  field.type = FieldType::whole;
  return field;
}

Field number_field(std::string name, double lowest, double highest, std::string help) {
  Field field = made(std::move(name), FieldType::number, std::move(help));
  field.lowest = lowest;
  field.highest = highest;
  return field;
}

Field choice_field(std::string name, std::vector<std::string> choices, std::string help) {
  Field field = made(std::move(name), FieldType::choice, std::move(help));
  field.choices = std::move(choices);
  return field;
}

Field link_field(std::string name, std::string kind, std::string help) {
  Field field = made(std::move(name), FieldType::link, std::move(help));
  field.links_to = std::move(kind);
  return field;
}

std::string shortest(double value) {
  std::array<char, 64> digits{};
  // Without an exponent as long as people would write it so.
  const bool plain = value == 0.0 || (std::abs(value) >= 1e-5 && std::abs(value) < 1e15);
  const auto end = plain ? std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed).ptr
                         : std::to_chars(digits.data(), digits.data() + digits.size(), value).ptr;
  return {digits.data(), end};
}

std::string takes(const Field& field) {
  switch (field.type) {
    case FieldType::text:
      return "a text on one line, at most " + std::to_string(longest_text) + " bytes";
    case FieldType::note:
      return "a text of at most " + std::to_string(longest_note) + " bytes";
    case FieldType::whole:
      return with_limits("whole number", field);
    case FieldType::number:
      return with_limits("number", field);
    case FieldType::day:
      return "a day that there is, YYYY-MM-DD, from 1900 to 2199";
    case FieldType::clock:
      return "a time HH:MM";
    case FieldType::instant:
      return "an instant such as 2026-07-09T14:30Z";
    case FieldType::yes_no:
      return "yes or no";
    case FieldType::link:
      return "the id of a " + field.links_to;
    case FieldType::choice:
      break;
  }
  std::string all;
  for (const std::string& choice : field.choices) all += (all.empty() ? "" : ", ") + choice;
  return "one of " + all;
}

units::Result<std::string> canonical(const Field& field, std::string_view written) {
  const auto refused = [&](std::string expected) { return units::fault(field.name, units::for_message(written), std::move(expected)); };
  if (written.find('\0') != std::string_view::npos) return refused("expected a text without NUL bytes");
  if (!units::is_utf8(written)) return refused("expected UTF-8");
  const bool is_note = field.type == FieldType::note;
  const std::string text = with_line_feeds(units::trimmed(written));
  if (text.empty()) return text;
  if (text.size() > (is_note ? longest_note : longest_text)) return refused("expected " + takes(field));
  if (has_control(text, is_note))
    return refused(is_note ? "expected a text without control characters" : "expected one line without control characters");
  if (field.type == FieldType::link) return canonical_id(field.name, text);
  if (field.type == FieldType::number || field.type == FieldType::whole) return number(field, text);
  if (const auto value = exact(field, text)) return *value;
  return refused("expected " + takes(field));
}

units::Result<std::string> canonical_id(std::string_view what, std::string_view written) {
  const std::string text{written};
  if (text.empty() || text.size() > longest_id || text != units::trimmed(text) || !units::is_utf8(text) || has_control(text, false))
    return units::fault(std::string{what}, units::for_message(text),
                        "expected an id: one line of 1 to " + std::to_string(longest_id) + " bytes, no blank at either end");
  return text;
}

}  // namespace book
