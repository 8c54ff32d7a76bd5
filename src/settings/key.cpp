#include "settings/key.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>

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

// Looks at the opened file, not at its name: what is checked is what is read.
units::Result<std::string> first_line(const std::filesystem::path& file) {
  // The path may be a key that somebody put in its place: it is not repeated.
  const std::string where = "weather.key_file";
  const int descriptor = ::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (descriptor < 0) return units::fault(where, "", "expected a key file that can be read");
  struct stat facts {};
  std::array<char, 1024> text{};
  const bool known = ::fstat(descriptor, &facts) == 0;
  const ssize_t count = known && S_ISREG(facts.st_mode) ? ::read(descriptor, text.data(), text.size()) : -1;
  ::close(descriptor);
  if (count < 0) return units::fault(where, "", "expected a key file that can be read");
  if ((facts.st_mode & 0077) != 0) return units::fault(where, "", "expected a file that only you can read: chmod 600");
  const std::string all(text.data(), static_cast<std::size_t>(count));
  std::string line = all.substr(0, all.find('\n'));
  if (line.ends_with('\r')) line.pop_back();
  return line;
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
  auto line = first_line(file->second);
  if (!line) return tl::make_unexpected(line.error());
  if (!fits_a_header(*line)) return units::fault("weather.key_file", "", "expected a key: one word of letters, digits and signs");
  return std::optional{std::move(*line)};
}

}  // namespace settings
