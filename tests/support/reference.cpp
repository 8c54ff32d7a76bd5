#include "support/reference.h"

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace reference {

using nlohmann::json;

struct Check::Content {
  std::string id;
  std::string source;
  json inputs;
  std::vector<Published> published;
};

namespace {

double number(const json& value) { return value.is_string() ? clock_seconds(value.get<std::string>()) : value.get<double>(); }

Published published_value(const std::string& name, const json& entry) {
  Published value;
  value.name = name;
  const json& printed = entry.at("is");
  if (printed.is_array()) {
    for (const json& item : printed) value.values.push_back(number(item));
  } else {
    value.values.push_back(number(printed));
  }
  value.tolerance = entry.at("within").get<double>();
  if (entry.contains("reached_within")) value.reached_within = entry.at("reached_within").get<double>();
  value.left_out = entry.value("left_out", false);
  if (value.left_out || value.reached_within) value.because = entry.at("because").get<std::string>();
  return value;
}

std::shared_ptr<const Check::Content> content_of(const json& check) {
  auto content = std::make_shared<Check::Content>();
  content->id = check.at("id").get<std::string>();
  content->source = check.at("source").get<std::string>();
  content->inputs = check.value("inputs", json::object());
  for (const auto& [name, entry] : check.at("expected").items()) content->published.push_back(published_value(name, entry));
  return content;
}

const json& find(const json& inputs, const std::string& id, std::string_view name) {
  const auto found = inputs.find(std::string(name));
  if (found == inputs.end()) throw std::out_of_range("check " + id + " has no input " + std::string(name));
  return *found;
}

}  // namespace

Check::Check(std::shared_ptr<const Content> content) : content_(std::move(content)) {}
const std::string& Check::id() const { return content_->id; }
const std::string& Check::source() const { return content_->source; }
bool Check::has_input(std::string_view name) const { return content_->inputs.contains(std::string(name)); }
double Check::input(std::string_view name) const { return find(content_->inputs, id(), name).get<double>(); }
std::string Check::text_input(std::string_view name) const { return find(content_->inputs, id(), name).get<std::string>(); }

std::vector<double> Check::inputs(std::string_view name) const {
  const json& value = find(content_->inputs, id(), name);
  return value.is_array() ? value.get<std::vector<double>>() : std::vector<double>{value.get<double>()};
}

std::vector<std::string> Check::text_inputs(std::string_view name) const {
  return find(content_->inputs, id(), name).get<std::vector<std::string>>();
}

const std::vector<Published>& Check::published() const { return content_->published; }

const Published& Check::published(std::string_view name) const {
  const auto found = std::find_if(published().begin(), published().end(), [name](const Published& p) { return p.name == name; });
  if (found == published().end()) throw std::out_of_range("check " + id() + " publishes no " + std::string(name));
  return *found;
}

double Check::expected(std::string_view name) const { return published(name).values.at(0); }
const std::vector<double>& Check::expected_list(std::string_view name) const { return published(name).values; }
double Check::tolerance(std::string_view name) const { return published(name).tolerance; }

std::vector<Check> load(std::string_view name) {
  const std::string path = std::string(SAPDRAW_SOURCE_DIR) + "/tests/reference/" + std::string(name) + ".json";
  std::ifstream file(path);
  if (!file) throw std::runtime_error("no reference file " + path);
  std::vector<Check> checks;
  const json content = json::parse(file);
  for (const json& check : content.at("checks")) checks.emplace_back(content_of(check));
  return checks;
}

Check load(std::string_view name, std::string_view id) {
  for (Check& check : load(name)) {
    if (check.id() == id) return std::move(check);
  }
  throw std::out_of_range("reference file " + std::string(name) + " has no check " + std::string(id));
}

double clock_seconds(std::string_view clock) {
  const auto two_digits = [clock](std::size_t at) { return std::stod(std::string(clock.substr(at, 2))); };
  return 3600.0 * two_digits(0) + 60.0 * two_digits(3) + (clock.size() > 5 ? two_digits(6) : 0.0);
}

}  // namespace reference
