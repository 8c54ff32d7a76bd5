// The table [post] of the settings.
#pragma once
#include <optional>

#include "settings/post.h"
#include "settings/table.h"

namespace settings {

// Fills `post`; the fault of the first key that does not fit. No fault repeats a value: one may be a key in the wrong place.
[[nodiscard]] std::optional<units::Fault> read_post(Table& table, Post& post);

}  // namespace settings
