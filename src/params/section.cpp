#include "params/section.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>

#include "params/near_names.h"

namespace params {
namespace {

using Json = nlohmann::ordered_json;

std::string range_text(double lowest, double highest, const std::string& unit) {
  return fmt::format("expected {} to {}{}", lowest, highest, unit == "1" ? "" : " " + unit);
}

}  // namespace

void Reading::fail(std::string where, std::string found, std::string expected) {
  if (!fault) fault = units::Fault{std::move(where), std::move(found), std::move(expected)};
}

const Reference* Reading::reference(std::string_view key) const {
  const auto found = std::find_if(references.begin(), references.end(), [&](const Reference& r) { return r.key == key; });
  return found == references.end() ? nullptr : &*found;
}

Section::Section(Reading& reading, std::string file, std::string stem, std::string key, const Json& json)
    : reading_(reading), file_(std::move(file)), stem_(std::move(stem)), key_(std::move(key)), json_(json) {}

void Section::read(Reading& reading, const std::string& file, const std::string& stem, const std::string& key, const Json& json,
                   const Reader& reader) {
  if (reading.fault) return;
  if (!json.is_object()) return reading.fail(file + ": " + key, json.dump(), "expected an object");
  Section section{reading, file, stem, key, json};
  reader(section);
  section.finish();
}

void Section::finish() {
  for (const auto& [name, value] : json_.items()) {
    if (asked_.contains(name)) continue;
    const std::vector<std::string> known(asked_.begin(), asked_.end());
    const auto near = near_names(name, known);
    return reading_.fail(where(name), "",
                         near.empty() ? "unknown name: expected " + one_of(known) : "unknown name: did you mean " + one_of(near) + "?");
  }
  if (!missing_.empty()) reading_.fail(where(missing_.front()), "", "missing: expected here");
}

std::string Section::key_of(std::string_view name) const { return key_.empty() ? std::string{name} : fmt::format("{}.{}", key_, name); }

std::string Section::where(std::string_view name) const { return file_ + ": " + key_of(name); }

bool Section::overridden(std::string_view name) const { return reading_.overrides.contains(stem_ + "." + key_of(name)); }

std::string Section::set_at(std::string_view name) const {
  return overridden(name) ? fmt::format("{}: {}.{}", reading_.owner_file, stem_, key_of(name)) : where(name);
}

void Section::in_order(std::string_view low_name, double low, std::string_view high_name, double high) {
  if (!has(low_name) || !has(high_name) || low <= high) return;
  const std::string_view blamed = overridden(high_name) ? high_name : low_name;
  reading_.fail(set_at(blamed), "", fmt::format("expected {} ({}) at or below {} ({})", low_name, low, high_name, high));
}

bool Section::has(std::string_view name) const { return json_.contains(name); }

bool Section::optional(std::string_view name) {
  asked_.insert(std::string{name});
  return has(name);
}

const Json* Section::member(std::string_view name) {
  asked_.insert(std::string{name});
  const auto found = json_.find(name);
  if (found != json_.end()) return &*found;
  missing_.emplace_back(name);
  return nullptr;
}

void Section::section(std::string_view name, const Reader& reader) {
  if (const Json* json = member(name)) read(reading_, file_, stem_, key_of(name), *json, reader);
}

void Section::each(const std::function<void(const std::string& name)>& visit) const {
  for (const auto& [name, value] : json_.items()) visit(name);
}

double Section::bare_number(std::string_view name) {
  const Json* json = member(name);
  if (json == nullptr) return 0.0;
  if (json->is_number()) return json->get<double>();
  reading_.fail(where(name), json->dump(), "expected a number");
  return 0.0;
}

std::pair<double, double> Section::bounds(std::string_view name) {
  const Json* json = member(name);
  if (json == nullptr) return {};
  const bool numbers = json->is_array() && json->size() == 2 && (*json)[0].is_number() && (*json)[1].is_number();
  if (numbers && (*json)[0].get<double>() <= (*json)[1].get<double>()) return {(*json)[0].get<double>(), (*json)[1].get<double>()};
  reading_.fail(where(name), json->dump(), "expected two numbers, the lower first");
  return {};
}

std::string Section::text(std::string_view name) {
  const Json* json = member(name);
  if (json == nullptr) return {};
  if (json->is_string()) return json->get<std::string>();
  reading_.fail(where(name), json->dump(), "expected text");
  return {};
}

std::string Section::text_or_nothing(std::string_view name) { return optional(name) ? text(name) : std::string{}; }

std::vector<std::string> Section::texts(std::string_view name) {
  const Json* json = member(name);
  if (json == nullptr) return {};
  std::vector<std::string> result;
  const bool all_text = json->is_array() && std::all_of(json->begin(), json->end(), [](const Json& j) { return j.is_string(); });
  if (!all_text || json->empty()) {
    reading_.fail(where(name), json->dump(), "expected a list of texts");
    return {};
  }
  for (const Json& item : *json) result.push_back(item.get<std::string>());
  return result;
}

void Section::provenance(Row& row) {
  const auto resolve = [&](std::string_view name, const std::string& key) {
    const Reference* reference = reading_.reference(key);
    if (reference == nullptr) reading_.fail(where(name), key, "expected a key of references.json");
    return reference;
  };
  row.source = text("source");
  if (has("source"))
    if (const Reference* reference = resolve("source", row.source)) row.source_text = reference->text;
  if (optional("rests_on")) row.rests_on = texts("rests_on");
  for (const std::string& key : row.rests_on) resolve("rests_on", key);
  const std::string confidence = text("confidence");
  const bool known = confidence.size() == 1 && confidence[0] >= 'A' && confidence[0] <= 'D';
  if (known)
    row.confidence = confidence[0];
  else if (has("confidence"))
    reading_.fail(where("confidence"), confidence, "expected A, B, C or D");
  row.note = text_or_nothing("note");
}

double Section::accept(Row row, std::string_view unit, std::string_view name) {
  if (reading_.fault) return 0.0;
  row.key = stem_ + "." + key_of(name);
  row.shipped_value = row.value;
  const auto check = [&](const std::string& at, double value, const std::string& value_unit) {
    if (value_unit != unit) return reading_.fail(at + ": unit", value_unit, fmt::format("expected '{}'", unit));
    if (!(value >= row.lowest && value <= row.highest))
      reading_.fail(at, fmt::format("{}", value), range_text(row.lowest, row.highest, row.unit));
  };
  check(where(name), row.value, row.unit);
  if (row.spread_ln_sd && row.lowest < 0.0)
    reading_.fail(where(name) + ": range", fmt::format("{}", row.lowest), "expected 0 or more, because the spread is in logarithms");
  if (const auto found = reading_.overrides.find(row.key); found != reading_.overrides.end() && !reading_.fault) {
    Override& owner = found->second;
    row.overridden = true;
    owner.used = true;
    check(set_at(name), owner.value, owner.unit);
    row.value = owner.value;
    if (!owner.note.empty()) row.note = owner.note;
  }
  const double value = row.value;
  if (!reading_.fault) reading_.rows.push_back(std::move(row));
  return value;
}

units::Uncertain Section::parameter(std::string_view name, std::string_view unit, bool with_spread) {
  Row row;
  bool present = false;
  section(name, [&](Section& parameter) {
    present = true;
    row.value = parameter.bare_number("value");
    row.unit = parameter.text("unit");
    std::tie(row.lowest, row.highest) = parameter.bounds("range");
    if (with_spread) {
      row.spread_ln_sd = parameter.bare_number("spread_ln_sd");
      if (*row.spread_ln_sd < 0.0 || *row.spread_ln_sd > 2.0)
        reading_.fail(parameter.where("spread_ln_sd"), fmt::format("{}", *row.spread_ln_sd), "expected 0 to 2");
    }
    parameter.provenance(row);
  });
  if (!present) return {};
  units::Uncertain result{0.0, row.spread_ln_sd.value_or(0.0), row.lowest, row.highest};
  result.value = accept(std::move(row), unit, name);
  return result;
}

double Section::number(std::string_view name, std::string_view unit) { return parameter(name, unit, false).value; }

double Section::half_step(std::string_view name) {
  const double exponent = number(name, "1");
  if (std::abs(2.0 * exponent - std::round(2.0 * exponent)) > 1e-9)
    reading_.fail(where(name), fmt::format("{}", exponent), "expected a multiple of 0.5");
  return exponent;
}

units::Uncertain Section::uncertain(std::string_view name, std::string_view unit) { return parameter(name, unit, true); }

std::vector<std::pair<double, double>> Section::series(std::string_view name, std::string_view prefix, std::string_view unit) {
  std::vector<std::pair<double, double>> result;
  section(name, [&](Section& points) {
    points.each([&](const std::string& key) {
      double at = 0.0;
      const bool prefixed = key.starts_with(prefix);
      const char* const end = key.data() + key.size();
      const auto parsed = std::from_chars(key.data() + (prefixed ? prefix.size() : 0), end, at);
      if (!prefixed || parsed.ec != std::errc{} || parsed.ptr != end)
        return reading_.fail(points.where(key), "", fmt::format("expected '{}' with a number", prefix));
      if (!result.empty() && at <= result.back().first)
        return reading_.fail(points.where(key), "", fmt::format("expected after '{}{}' in rising order", prefix, result.back().first));
      result.emplace_back(at, points.number(key, unit));
    });
    if (result.empty()) reading_.fail(where(name), "{}", fmt::format("expected at least one '{}' with a number", prefix));
  });
  return result;
}

}  // namespace params
