// Whole files in and out, with faults instead of half-read or half-written ones.
#pragma once
#include <filesystem>
#include <string>

#include "feeds/reply.h"
#include "units/fault.h"

namespace app {

// Fault: not there, a directory, not readable, above `most_bytes`.
[[nodiscard]] units::Result<std::string> read_file(const std::filesystem::path& path, std::size_t most_bytes = feeds::largest_input_bytes);

// Whether write_file has a chance: the folder is there and may be written.
[[nodiscard]] units::Result<void> can_write(const std::filesystem::path& path);

// Writes beside the target and renames, so that a reader sees the old content or the new. Fault: the place cannot be written.
[[nodiscard]] units::Result<void> write_file(const std::filesystem::path& path, const std::string& content);

}  // namespace app
