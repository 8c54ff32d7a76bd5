#include "settings/key.h"

#include <algorithm>

#include "settings/secret_file.h"

namespace settings {
namespace {

bool fits_a_header(const std::string& key) {
  return !key.empty() && key.size() <= 500 && std::ranges::all_of(key, [](char c) { return c > 0x20 && c < 0x7f; });
}

std::string variable_of(const std::string& service) {
  std::string name = "SAPDRAW_" + service + "_KEY";
  std::ranges::transform(name, name.begin(), [](unsigned char c) { return c == '-' ? '_' : static_cast<char>(std::toupper(c)); });
  return name;
}

}  // namespace

units::Result<std::optional<std::string>> key_of(const std::string& service, const Settings& settings, const Environment& environment) {
  const std::string variable = variable_of(service);
  if (const auto key = environment(variable); key && !key->empty()) {
    if (!fits_a_header(*key)) return units::fault(variable, "", "expected a key: one word of letters, digits and signs");
    return key;
  }
  const auto file = settings.key_file.find(service);
  if (file == settings.key_file.end()) return std::nullopt;
  auto line = first_line(file->second, "weather.key_file");
  if (!line) return tl::make_unexpected(line.error());
  if (!fits_a_header(*line)) return units::fault("weather.key_file", "", "expected a key: one word of letters, digits and signs");
  return std::optional{std::move(*line)};
}

}  // namespace settings
