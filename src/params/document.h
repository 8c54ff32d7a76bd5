// One JSON file read strictly: a syntax error has its line, a key given twice is refused.
#pragma once
#include <filesystem>
#include <nlohmann/json_fwd.hpp>

#include "units/fault.h"

namespace params {

// The file's JSON object, keys in the file's order. Fault: unreadable file; syntax error as "file:line"; a top level that is not an
// object; a key given twice.
[[nodiscard]] units::Result<nlohmann::ordered_json> read_document(const std::filesystem::path& file);

}  // namespace params
