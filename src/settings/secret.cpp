#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>

#include "settings/post.h"
#include "settings/secret_file.h"

namespace settings {

units::Result<std::string> first_line(const std::filesystem::path& file, const std::string& where) {
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

units::Result<std::optional<std::string>> secret_at(const SecretPlace& place, const std::string& where, const Environment& environment) {
  if (!place.given()) return std::nullopt;
  std::string secret;
  if (!place.variable.empty()) {
    const auto set = environment(place.variable);
    if (!set) return units::fault(where, "", "expected that variable of the environment to be set");
    secret = *set;
  } else {
    auto line = first_line(place.file, where);
    if (!line) return tl::make_unexpected(line.error());
    secret = *line;
  }
  const bool sound = !secret.empty() && secret.size() <= 500 &&
                     std::ranges::none_of(secret, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
  if (!sound) return units::fault(where, "", "expected a password or key in one line of 1 to 500 bytes");
  return std::optional{std::move(secret)};
}

}  // namespace settings
