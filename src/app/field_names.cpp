#include "app/field_names.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "units/text.h"
#include "units/us_customary.h"

namespace app {
namespace {

using book::Field;
using book::FieldType;

struct UnitPair {
  const char *si, *us;
  double factor;
};
constexpr std::array unit_pairs{
    UnitPair{"_cm", "_in", units::us::centimetres_per_inch}, UnitPair{"_mm", "_in", 10.0 * units::us::centimetres_per_inch},
    UnitPair{"_l", "_gal", units::us::litres_per_gallon}, UnitPair{"_kpa", "_psi", units::us::kilopascals_per_psi},
    UnitPair{"_m", "_ft", units::us::metres_per_foot}};

const UnitPair* pair_of(const Field& field) {
  if (field.type != FieldType::number) return nullptr;
  const auto found = std::ranges::find_if(unit_pairs, [&](const UnitPair& pair) { return field.name.ends_with(pair.si); });
  return found == unit_pairs.end() ? nullptr : &*found;
}

std::string without_unit(const Field& field) {
  const UnitPair* pair = pair_of(field);
  return pair == nullptr ? field.name : field.name.substr(0, field.name.size() - std::string_view{pair->si}.size());
}

// "158 in" under girth_in: the unit that the name says already.
std::string_view without_unit_behind(const std::string& name, std::string_view written) {
  std::string_view text = units::trimmed(written);
  const auto line = name.rfind('_');
  const std::string_view unit = std::string_view{name}.substr(line == std::string::npos ? name.size() : line + 1);
  if (!unit.empty() && text.size() > unit.size() && units::same_letters(text.substr(text.size() - unit.size()), unit))
    return units::trimmed(text.substr(0, text.size() - unit.size()));
  return text;
}

}  // namespace

std::vector<OtherName> other_names(const Field& field) {
  std::vector<OtherName> others;
  if (const UnitPair* pair = pair_of(field)) others.push_back({without_unit(field) + pair->us, pair->factor});
  if (field.name == "dbh_cm") {
    others.push_back({"circumference_cm", 1.0 / std::numbers::pi});
    others.push_back({"circumference_in", units::us::centimetres_per_inch / std::numbers::pi});
    others.push_back({"girth_cm", 1.0 / std::numbers::pi});
    others.push_back({"girth_in", units::us::centimetres_per_inch / std::numbers::pi});
  }
  return others;
}

units::Result<book::Fields> in_own_names(const book::Kind& kind, const book::Fields& written) {
  book::Fields own = written;
  for (const Field& field : kind.fields)
    if (const auto found = own.find(field.name); found != own.end() && pair_of(field) != nullptr)
      found->second = without_unit_behind(field.name, found->second);
  for (const Field& field : kind.fields)
    for (const OtherName& other : other_names(field)) {
      const auto found = written.find(other.name);
      if (found == written.end()) continue;
      own.erase(other.name);
      if (units::trimmed(found->second).empty()) {
        own.try_emplace(field.name, "");
        continue;
      }
      const auto number = units::parse_number(without_unit_behind(other.name, found->second));
      if (!number) return units::fault(other.name, units::for_message(found->second), "expected a number");
      const double value = *number * other.factor;
      if (value < field.lowest || value > field.highest)
        return units::fault(
            other.name, found->second,
            fmt::format("expected a number from {:.4g} to {:.4g}", field.lowest / other.factor, field.highest / other.factor));
      if (const auto [there, is_new] = own.try_emplace(field.name, book::shortest(value));
          !is_new && !units::trimmed(there->second).empty())
        return units::fault(other.name, units::for_message(found->second), fmt::format("expected {} under one name only", label(field)));
      else
        there->second = book::shortest(value);
    }
  return own;
}

std::string label(const Field& field) {
  // Names that are the model's, not a crew's.
  if (field.name == "rew_now") return "soil water now";
  if (field.name == "probe_pct") return "soil probe, % of volume";
  if (field.name == "probe_cm") return "soil probe depth";
  if (field.name == "soil_on") return "soil looked at on";
  if (field.name == "crown_now_pct") return "leaves now, %";
  std::string text = without_unit(field);
  if (text.starts_with("own_")) return field.help;
  std::ranges::replace(text, '_', ' ');
  return text;
}

std::string shown(const Field& field, const std::string& value, UnitSystem units) {
  const UnitPair* pair = pair_of(field);
  const auto number = units::parse_number(value);
  if (pair == nullptr || !number) return value;
  if (units == UnitSystem::si) return value + " " + (pair->si + 1);
  const double us = *number / pair->factor;
  return (std::abs(us) < 1000.0 ? fmt::format("{:.4g}", us) : fmt::format("{:.0f}", us)) + " " + (pair->us + 1);
}

}  // namespace app
