// The first line of a file that nobody else can read.
#pragma once
#include <filesystem>
#include <string>

#include "units/fault.h"

namespace settings {

// Looks at the opened file, not at its name: what is checked is what is read. Faults, as of `where`: missing, no file, readable by others.
// The path may be a key that somebody put in its place: it is not repeated.
[[nodiscard]] units::Result<std::string> first_line(const std::filesystem::path& file, const std::string& where);

}  // namespace settings
