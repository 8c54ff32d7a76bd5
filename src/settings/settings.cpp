#include "settings/settings.h"

#include <algorithm>
#include <array>

#include "settings/read_post.h"
#include "settings/table.h"

namespace settings {
namespace {

constexpr std::array all_services{nws, met_norway, open_meteo, open_meteo_archive, open_meteo_ensemble, place_names, daily_rain};
// Those that give a forecast, and so can be put in an order of trust.
constexpr std::array forecasters{nws, met_norway, open_meteo};

// "a@b.c" or a web address; one word, so that it can stand in a header.
bool is_contact(std::string_view text) {
  if (text.size() > 200 || std::ranges::any_of(text, [](char c) { return is_control(c) || c == ' ' || c == '(' || c == ')'; }))
    return false;
  if (text.starts_with("https://") || text.starts_with("http://")) return text.find('.') != std::string_view::npos;
  const auto at = text.find('@');
  return at != std::string_view::npos && at > 0 && text.find('.', at) != std::string_view::npos && text.back() != '.';
}

bool is_address(std::string_view text) {
  if (text.size() > 300 || std::ranges::any_of(text, [](char c) { return is_control(c) || c == ' ' || c == '?' || c == '#' || c == '@'; }))
    return false;
  if (text.starts_with("https://")) return text.size() > 8;
  return text.starts_with("http://") && is_loopback(text.substr(7));
}

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
  Table post = top.table("post");
  if (auto fault = read_post(post, s.post)) return tl::make_unexpected(*fault);
  for (const Table* table : {&top, &weather, &address, &rate, &key})
    if (const auto fault = table->fault()) return tl::make_unexpected(*fault);
  return s;
}

}  // namespace settings
