#include "feeds/json_node.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "feeds/text.h"

namespace feeds {
namespace {

using nlohmann::json;
using units::Fault;
using units::Result;

const json& as_json(const void* value) { return *static_cast<const json*>(value); }

std::string printed_value(const json& value) {
  if (value.is_array()) return "[...]";
  if (value.is_object()) return "{...}";
  return for_message(value.is_string() ? value.get_ref<const std::string&>() : value.dump());
}

}  // namespace

bool JsonNode::is_object() const { return as_json(value_).is_object(); }
bool JsonNode::is_array() const { return as_json(value_).is_array(); }
bool JsonNode::is_text() const { return as_json(value_).is_string(); }
bool JsonNode::is_null() const { return as_json(value_).is_null(); }

std::size_t JsonNode::size() const { return as_json(value_).is_structured() ? as_json(value_).size() : 0; }

std::string JsonNode::where_of(std::string_view key) const {
  return fmt::format("{}{}{}", where_, is_root_ ? ": " : ".", for_message(key));
}

std::optional<JsonNode> JsonNode::find(std::string_view key) const {
  const json& value = as_json(value_);
  if (!value.is_object()) return std::nullopt;
  const auto member = value.find(key);
  if (member == value.end()) return std::nullopt;
  return JsonNode{&*member, where_of(key)};
}

std::optional<JsonNode> JsonNode::find_path(std::string_view dotted) const {
  std::optional<JsonNode> node = *this;
  while (node) {
    const auto dot = dotted.find('.');
    node = node->find(dotted.substr(0, dot));
    if (dot == std::string_view::npos) return node;
    dotted.remove_prefix(dot + 1);
  }
  return node;
}

Result<JsonNode> JsonNode::need(std::string_view key) const {
  if (auto member = find(key)) return *std::move(member);
  return units::fault(where_of(key), "", "missing");
}

JsonNode JsonNode::item(std::size_t index) const {
  return {&as_json(value_)[index], fmt::format("{}{}[{}]", where_, is_root_ ? ": " : "", index)};
}

std::vector<std::string_view> JsonNode::keys() const {
  std::vector<std::string_view> names;
  const json& value = as_json(value_);
  if (value.is_object())
    for (const auto& member : value.items()) names.emplace_back(member.key());
  return names;
}

Result<double> JsonNode::number() const {
  if (!as_json(value_).is_number()) return tl::make_unexpected(fault("expected a number"));
  return as_json(value_).get<double>();
}

Result<std::string_view> JsonNode::text() const {
  if (!is_text()) return tl::make_unexpected(fault("expected a text"));
  return std::string_view{as_json(value_).get_ref<const std::string&>()};
}

Result<std::vector<std::optional<double>>> JsonNode::numbers() const {
  if (!is_array()) return tl::make_unexpected(fault("expected a list of numbers"));
  std::vector<std::optional<double>> values;
  values.reserve(size());
  for (const json& item : as_json(value_)) {
    if (!item.is_number() && !item.is_null()) return tl::make_unexpected(item_fault(values.size(), "expected a number or null"));
    values.push_back(item.is_null() ? std::nullopt : std::optional{item.get<double>()});
  }
  return values;
}

std::string JsonNode::printed() const { return printed_value(as_json(value_)); }

Fault JsonNode::fault(std::string expected) const { return {where_, printed(), std::move(expected)}; }

Fault JsonNode::item_fault(std::size_t index, std::string expected) const { return item(index).fault(std::move(expected)); }

Result<JsonDocument> JsonDocument::parse(const std::string& name, std::string_view content) {
  try {
    auto value = std::make_shared<const json>(json::parse(content));
    return JsonDocument{std::move(value), name};
  } catch (const json::parse_error& error) {
    const std::string_view read = content.substr(0, std::min(error.byte, content.size()));
    const auto line = 1 + std::count(read.begin(), read.end(), '\n');
    const std::string how = error.byte > content.size() ? fmt::format("it breaks off after {} bytes", content.size())
                                                        : fmt::format("it is damaged at byte {}", error.byte);
    return units::fault(fmt::format("{}:{}", name, line), "", "expected whole JSON: " + how);
  } catch (const json::exception&) {
    return units::fault(name, "", "expected JSON numbers that a double can hold");
  }
}

}  // namespace feeds
