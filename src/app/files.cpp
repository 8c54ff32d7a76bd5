#include "app/files.h"

#include <fmt/format.h>

#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

namespace app {

units::Result<std::string> read_file(const std::filesystem::path& path, std::size_t most_bytes) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status)) return units::fault(path.string(), "", "expected a file: there is none of that name");
  if (std::filesystem::is_directory(status)) return units::fault(path.string(), "", "expected a file: this is a directory");
  if (std::filesystem::is_regular_file(status)) {
    const auto size = std::filesystem::file_size(path, error);
    if (!error && size > most_bytes)
      return units::fault(path.string(), fmt::format("{} bytes", size), fmt::format("expected at most {} bytes", most_bytes));
  }
  std::ifstream in{path, std::ios::binary};
  std::string content;
  char chunk[1 << 16];
  while (in && content.size() <= most_bytes) {
    in.read(chunk, sizeof chunk);
    content.append(chunk, static_cast<std::size_t>(in.gcount()));
  }
  if (!in.eof()) return units::fault(path.string(), "", "expected a file that can be read");
  return content;
}

units::Result<void> can_write(const std::filesystem::path& path) {
  std::error_code error;
  const auto folder = path.has_parent_path() ? path.parent_path() : std::filesystem::path{"."};
  const auto& target = std::filesystem::is_other(std::filesystem::status(path, error)) ? path : folder;
  if (std::filesystem::is_directory(path, error) || ::access(target.c_str(), W_OK) != 0)
    return units::fault(path.string(), "", "expected a place that can be written");
  return {};
}

units::Result<void> write_file(const std::filesystem::path& path, const std::string& content) {
  const auto unwritable = units::fault(path.string(), "", "expected a place that can be written");
  std::error_code error;
  // A terminal, a pipe, /dev/null: nothing may be renamed over it.
  if (const auto status = std::filesystem::status(path, error); std::filesystem::is_other(status)) {
    std::ofstream device{path, std::ios::binary};
    device.write(content.data(), static_cast<std::streamsize>(content.size()));
    device.close();
    if (!device) return unwritable;
    return {};
  }
  auto beside = path;
  beside += ".part";
  std::ofstream out{beside, std::ios::binary | std::ios::trunc};
  out.write(content.data(), static_cast<std::streamsize>(content.size()));
  out.close();
  if (out) std::filesystem::rename(beside, path, error);
  if (out && !error) return {};
  std::filesystem::remove(beside, error);
  return unwritable;
}

}  // namespace app
