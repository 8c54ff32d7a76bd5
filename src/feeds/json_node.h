// A parsed JSON document seen through nodes that know their path, so that every fault says where it is.
// The JSON library stays behind this page.
#pragma once
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/fault.h"

namespace feeds {

// A value inside a JsonDocument, which must outlive it.
class JsonNode {
 public:
  // "name: hourly.time[3]"; the document's name alone for its root.
  [[nodiscard]] const std::string& where() const { return where_; }

  [[nodiscard]] bool is_object() const;
  [[nodiscard]] bool is_array() const;
  [[nodiscard]] bool is_text() const;
  [[nodiscard]] bool is_null() const;
  // Items of an array, members of an object, otherwise 0.
  [[nodiscard]] std::size_t size() const;

  // The member of this name; empty where there is none or this is not an object.
  [[nodiscard]] std::optional<JsonNode> find(std::string_view key) const;
  // find() along "properties.meta.units".
  [[nodiscard]] std::optional<JsonNode> find_path(std::string_view dotted) const;
  [[nodiscard]] units::Result<JsonNode> need(std::string_view key) const;
  // Item of an array; requires index < size().
  [[nodiscard]] JsonNode item(std::size_t index) const;
  // Names of an object's members, in the order of the alphabet.
  [[nodiscard]] std::vector<std::string_view> keys() const;

  [[nodiscard]] units::Result<double> number() const;
  [[nodiscard]] units::Result<std::string_view> text() const;
  // An array of numbers in which null stands for missing.
  [[nodiscard]] units::Result<std::vector<std::optional<double>>> numbers() const;

  // The value as a person would write it, cut short; "[...]" and "{...}" for arrays and objects.
  [[nodiscard]] std::string printed() const;
  // A fault about this value, and one about its item.
  [[nodiscard]] units::Fault fault(std::string expected) const;
  [[nodiscard]] units::Fault item_fault(std::size_t index, std::string expected) const;

 private:
  friend class JsonDocument;
  JsonNode(const void* value, std::string where, bool is_root = false) : value_(value), where_(std::move(where)), is_root_(is_root) {}
  [[nodiscard]] std::string where_of(std::string_view key) const;

  const void* value_;
  std::string where_;
  bool is_root_;
};

class JsonDocument {
 public:
  // Fault where `content` is not one whole JSON value: the line, and the byte at which it breaks off.
  [[nodiscard]] static units::Result<JsonDocument> parse(const std::string& name, std::string_view content);
  [[nodiscard]] JsonNode root() const { return {value_.get(), name_, true}; }

 private:
  JsonDocument(std::shared_ptr<const void> value, std::string name) : value_(std::move(value)), name_(std::move(name)) {}

  std::shared_ptr<const void> value_;
  std::string name_;
};

}  // namespace feeds
