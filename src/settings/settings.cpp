#include "settings/settings.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <toml++/toml.h>
#include <algorithm>
#include <array>

namespace settings {
namespace {

constexpr std::array all_services{nws, met_norway, open_meteo, open_meteo_archive, open_meteo_ensemble, place_names, daily_rain};
// Those that give a forecast, and so can be put in an order of trust.
constexpr std::array forecasters{nws, met_norway, open_meteo};

bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }

// "a@b.c" or a web address; one word, so that it can stand in a header.
bool is_contact(std::string_view text) {
  if (text.size() > 200 || std::ranges::any_of(text, [](char c) { return is_control(c) || c == ' ' || c == '(' || c == ')'; }))
    return false;
  if (text.starts_with("https://") || text.starts_with("http://")) return text.find('.') != std::string_view::npos;
  const auto at = text.find('@');
  return at != std::string_view::npos && at > 0 && text.find('.', at) != std::string_view::npos && text.back() != '.';
}

bool is_loopback(std::string_view rest) {
  const std::string_view host = rest.substr(0, rest.starts_with('[') ? rest.find(']') + 1 : rest.find_first_of(":/"));
  return host == "localhost" || host == "[::1]" || host.starts_with("127.");
}

bool is_address(std::string_view text) {
  if (text.size() > 300 || std::ranges::any_of(text, [](char c) { return is_control(c) || c == ' ' || c == '?' || c == '#' || c == '@'; }))
    return false;
  if (text.starts_with("https://")) return text.size() > 8;
  return text.starts_with("http://") && is_loopback(text.substr(7));
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

std::optional<std::string> into_services(const toml::node& node, std::vector<std::string>& services) {
  const std::string expected = fmt::format("expected a list of {}", fmt::join(forecasters, ", "));
  const toml::array* list = node.as_array();
  if (list == nullptr || list->empty()) return expected;
  for (const toml::node& item : *list) {
    const auto name = item.value_exact<std::string>();
    if (!name || std::ranges::find(forecasters, *name) == forecasters.end() || std::ranges::find(services, *name) != services.end())
      return expected + ", each at most once";
    services.push_back(*name);
  }
  return std::nullopt;
}

std::optional<std::string> into_use(const toml::node& node, OpenMeteoUse& use) {
  const std::map<std::string, OpenMeteoUse> words{{"none", OpenMeteoUse::none},
                                                  {"non-commercial", OpenMeteoUse::non_commercial},
                                                  {"paid", OpenMeteoUse::paid},
                                                  {"own-server", OpenMeteoUse::own_server}};
  const auto word = node.value_exact<std::string>();
  const auto found = word ? words.find(*word) : words.end();
  if (found == words.end()) return "expected none, non-commercial, paid or own-server";
  use = found->second;
  return std::nullopt;
}

template <class Fits>
std::optional<std::string> into_text(const toml::node& node, auto& to, const std::string& expected, Fits fits) {
  const auto text = node.value_exact<std::string>();
  if (!text || !fits(*text)) return expected;
  to = *text;
  return std::nullopt;
}

bool not_empty(const std::string& text) { return !text.empty(); }

}  // namespace

units::Result<Settings> read_settings(const std::string& name, std::string_view content) {
  toml::table parsed;
  try {
    parsed = toml::parse(content, name);
  } catch (const toml::parse_error& error) {
    return units::fault(fmt::format("{}:{}", name, error.source().begin.line), "",
                        fmt::format("expected TOML: {}", std::string{error.description()}));
  }
  Settings s;
  Table top{name, &parsed, ""};
  top.read("contact", [&](const toml::node& node) {
    return into_text(node, s.contact, "expected a mail or web address at which the weather services can reach you", is_contact);
  });
  Table weather = top.table("weather");
  weather.read("services", [&](const toml::node& node) { return into_services(node, s.services); });
  weather.read("open_meteo", [&](const toml::node& node) { return into_use(node, s.open_meteo); });
  weather.read("ensemble", [&](const toml::node& node) -> std::optional<std::string> {
    const auto flag = node.value_exact<bool>();
    if (!flag) return "expected true or false";
    s.ensemble = *flag;
    return std::nullopt;
  });
  weather.read("ca_file", [&](const toml::node& node) {
    std::string path;
    auto expected = into_text(node, path, "expected the path of a file", not_empty);
    if (!expected) s.ca_file = path;
    return expected;
  });
  weather.read("cache_mb", [&](const toml::node& node) -> std::optional<std::string> {
    const auto number = node.value_exact<std::int64_t>();
    if (!number || *number < 1 || *number > 100'000) return "expected a whole number from 1 to 100000";
    s.cache_mb = static_cast<std::uint64_t>(*number);
    return std::nullopt;
  });
  Table address = weather.table("address");
  address.keep_quiet();
  address.each(all_services, [&](const std::string& service, const toml::node& node) {
    return into_text(node, s.address[service], "expected an address that begins https://, or http:// on this machine", is_address);
  });
  Table rate = weather.table("calls_per_second");
  rate.each(all_services, [&](const std::string& service, const toml::node& node) -> std::optional<std::string> {
    const auto number = node.value<double>();
    if (!number || !(*number >= 0.01 && *number <= 1000.0)) return "expected a number from 0.01 to 1000";
    s.calls_per_second[service] = *number;
    return std::nullopt;
  });
  Table key = weather.table("key_file");
  key.keep_quiet();
  key.each(std::array{open_meteo}, [&](const std::string& service, const toml::node& node) {
    std::string path;
    auto expected = into_text(node, path, "expected the path of a file", not_empty);
    if (!expected) s.key_file[service] = path;
    return expected;
  });
  for (const Table* table : {&top, &weather, &address, &rate, &key})
    if (const auto fault = table->fault()) return tl::make_unexpected(*fault);
  return s;
}

}  // namespace settings
