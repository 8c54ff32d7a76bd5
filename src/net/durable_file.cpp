#include "net/durable_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <string>

namespace net {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view half_written = ".part-";

bool write_all(int descriptor, std::string_view content) {
  while (!content.empty()) {
    const ssize_t count = ::write(descriptor, content.data(), content.size());
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return false;
    content.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

// So that the new name outlives a power cut.
void flush_folder(const fs::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  ::fsync(descriptor);
  ::close(descriptor);
}

units::Result<void> write_beside(const fs::path& path, std::string_view content, bool flush) {
  static std::atomic<unsigned> counter{0};
  const auto unwritable = [&](int reason) {
    return units::fault(path.string(), "", fmt::format("expected a place that can be written: {}", std::strerror(reason)));
  };
  std::error_code error;
  fs::create_directories(path.parent_path(), error);
  const fs::path beside = path.parent_path() / fmt::format("{}{}{}-{}", path.filename().string(), half_written, ::getpid(), counter++);
  const int descriptor = ::open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (descriptor < 0) return unwritable(errno);
  const bool written = write_all(descriptor, content) && (!flush || ::fsync(descriptor) == 0);
  const int reason = errno;
  ::close(descriptor);
  if (!written || ::rename(beside.c_str(), path.c_str()) != 0) {
    const int why = written ? errno : reason;
    ::unlink(beside.c_str());
    return unwritable(why);
  }
  if (flush) flush_folder(path.parent_path());
  return {};
}

}  // namespace

units::Result<void> write_durably(const fs::path& path, std::string_view content) { return write_beside(path, content, true); }

units::Result<void> write_whole(const fs::path& path, std::string_view content) { return write_beside(path, content, false); }

void sweep_half_written(const fs::path& folder) {
  std::error_code error;
  for (const auto& entry : fs::directory_iterator{folder, error}) {
    const std::string name = entry.path().filename().string();
    const auto mark = name.rfind(half_written);
    if (mark == std::string::npos) continue;
    const char* digits = name.data() + mark + half_written.size();
    pid_t process = 0;
    std::from_chars(digits, name.data() + name.size(), process);
    if (process > 0 && ::kill(process, 0) != 0 && errno == ESRCH) fs::remove(entry.path(), error);
  }
}

FileLock::FileLock(const fs::path& path) {
  std::error_code error;
  fs::create_directories(path.parent_path(), error);
  descriptor_ = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (descriptor_ < 0) return;
  ::futimens(descriptor_, nullptr);  // in use
  while (::flock(descriptor_, LOCK_EX) != 0)
    if (errno != EINTR) {
      ::close(descriptor_);
      descriptor_ = -1;
      return;
    }
}

FileLock::~FileLock() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

}  // namespace net
