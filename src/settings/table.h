// One table of the settings' TOML, read key by key; for the .cpp files of this folder.
#pragma once
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <toml++/toml.h>
#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "units/fault.h"

namespace settings {

[[nodiscard]] inline bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }

// The part of an address after http:// is on this machine.
[[nodiscard]] inline bool is_loopback(std::string_view rest) {
  const std::string_view host = rest.substr(0, rest.starts_with('[') ? rest.find(']') + 1 : rest.find_first_of(":/"));
  return host == "localhost" || host == "[::1]" || host.starts_with("127.");
}

// One table of the file; every key must be asked for before the end.
class Table {
 public:
  Table(const std::string& name, const toml::table* table, std::string path) : name_(name), table_(table), path_(std::move(path)) {}

  [[nodiscard]] std::string where(std::string_view key, const toml::node& node) const {
    return fmt::format("{}:{}: {}{}", name_, node.source().begin.line, path_, key);
  }

  // The node of `key` handed to `take`, which gives back what it expected where the node does not fit.
  template <class Take>
  void read(std::string_view key, Take take) {
    known_.emplace_back(key);
    if (fault_ || table_ == nullptr) return;
    const toml::node* node = table_->get(key);
    if (node == nullptr) return;
    if (const std::optional<std::string> expected = take(*node))
      fault_ = units::Fault{where(key, *node), tells_ ? printed(*node) : "", *expected};
  }

  [[nodiscard]] Table table(std::string_view key) {
    const toml::table* inner = nullptr;
    read(key, [&](const toml::node& node) -> std::optional<std::string> {
      inner = node.as_table();
      return inner == nullptr ? std::optional<std::string>{"expected a table"} : std::nullopt;
    });
    return {name_, inner, path_ + std::string{key} + "."};
  }

  // Every key of the table, which must be one of `names`.
  template <class Take>
  void each(const auto& names, Take take) {
    for (const std::string_view service : names) read(service, [&](const toml::node& node) { return take(std::string{service}, node); });
  }

  // Every key of the table, whatever its name, in the order of the names.
  template <class Take>
  void each(Take take) {
    if (table_ == nullptr) return;
    for (const auto& [key, node] : *table_) read(key.str(), [&](const toml::node& value) { return take(std::string{key.str()}, value); });
  }

  [[nodiscard]] bool there() const { return table_ != nullptr; }

  // Faults of this table do not repeat values: one may be a key in the wrong place.
  void keep_quiet() { tells_ = false; }

  [[nodiscard]] std::optional<units::Fault> fault() const {
    if (fault_ || table_ == nullptr) return fault_;
    for (const auto& [key, node] : *table_)
      if (std::ranges::find(known_, key.str()) == known_.end())
        return units::Fault{where(key.str(), node), "", fmt::format("expected one of {}", fmt::join(known_, ", "))};
    return std::nullopt;
  }

 private:
  static std::string printed(const toml::node& node) {
    if (const auto text = node.value<std::string>()) {
      std::string shown = text->substr(0, 60);
      std::ranges::replace_if(
          shown, [](char c) { return is_control(c) || static_cast<unsigned char>(c) >= 0x80; }, '?');
      return shown;
    }
    if (const auto number = node.value<double>()) return fmt::format("{}", *number);
    return {};
  }

  const std::string& name_;
  const toml::table* table_;
  std::string path_;
  std::vector<std::string> known_;
  std::optional<units::Fault> fault_;
  bool tells_ = true;
};

// Each gives back what it expected where the node does not fit.
template <class Fits>
std::optional<std::string> into_text(const toml::node& node, auto& to, const std::string& expected, Fits fits) {
  const auto text = node.value_exact<std::string>();
  if (!text || !fits(*text)) return expected;
  to = *text;
  return std::nullopt;
}

[[nodiscard]] inline bool not_empty(const std::string& text) { return !text.empty(); }

template <class Whole>
std::optional<std::string> into_whole(const toml::node& node, Whole& to, std::int64_t lowest, std::int64_t highest) {
  const auto number = node.value_exact<std::int64_t>();
  if (!number || *number < lowest || *number > highest) return fmt::format("expected a whole number from {} to {}", lowest, highest);
  to = static_cast<Whole>(*number);
  return std::nullopt;
}

// One of the words, each with what it stands for.
template <class Choice>
std::optional<std::string> into_choice(const toml::node& node, Choice& to, const std::vector<std::pair<std::string, Choice>>& words) {
  const auto word = node.value_exact<std::string>();
  std::vector<std::string> names;
  for (const auto& [name, choice] : words) {
    if (word && *word == name) {
      to = choice;
      return std::nullopt;
    }
    names.push_back(name);
  }
  return fmt::format("expected one of {}", fmt::join(names, ", "));
}

}  // namespace settings
