// Where models/ is: given by the caller, beside the installed program, or in the source tree.
#pragma once
#include <filesystem>
#include <optional>

#include "units/fault.h"

namespace params {

struct Places {
  std::optional<std::filesystem::path> given;  // an option or environment variable; when set, nothing else is tried
  std::filesystem::path program_directory;     // the folder of the running binary
};

// The first that holds references.json of: `given`; `program_directory`/../share/sapdraw/models; models/ beside the program or
// in one of the four folders above it (a build folder inside the source tree). Fault names the places tried.
[[nodiscard]] units::Result<std::filesystem::path> find_models_directory(const Places& places);

}  // namespace params
