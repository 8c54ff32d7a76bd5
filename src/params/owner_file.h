// The owner's own values, laid over the shipped ones. Form and rules: params/models.h.
#pragma once
#include <filesystem>

#include "params/section.h"

namespace params {

// Reads the file into `reading.overrides`; ranges are checked later, where the shipped parameter is read.
void read_owner_file(Reading& reading, const std::filesystem::path& file);

// After all files were read: an entry that no parameter took is a fault.
void refuse_unused_overrides(Reading& reading);

}  // namespace params
