// Files that are either as they were or wholly as they should be, whenever the power goes.
#pragma once
#include <filesystem>
#include <string_view>

#include "units/fault.h"

namespace net {

// Writes beside `path` under a name of its own, flushes file and folder to the disk and renames. Makes the folder. Fault: the place cannot
// be written (full, read-only); what stood there stands.
[[nodiscard]] units::Result<void> write_durably(const std::filesystem::path& path, std::string_view content);

// The same without waiting for the disk: whole after a crash of the program, perhaps not after one of the machine.
[[nodiscard]] units::Result<void> write_whole(const std::filesystem::path& path, std::string_view content);

// Removes half-written files in `folder` whose process is gone.
void sweep_half_written(const std::filesystem::path& folder);

// An exclusive lock on a file, held until it goes; waits for other processes and threads.
class FileLock {
 public:
  explicit FileLock(const std::filesystem::path& path);
  ~FileLock();
  FileLock(const FileLock&) = delete;
  FileLock& operator=(const FileLock&) = delete;
  [[nodiscard]] bool held() const { return descriptor_ >= 0; }  // false where the place cannot be written

 private:
  int descriptor_ = -1;
};

}  // namespace net
