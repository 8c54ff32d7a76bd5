// The owner's settings, read from where they lie.
#pragma once
#include <filesystem>
#include <optional>

#include "app/request.h"
#include "settings/settings.h"
#include "units/fault.h"

namespace app {

// `config` as found by settings::find_places; where it was not `given` and is not there, the defaults.
[[nodiscard]] units::Result<settings::Settings> settings_of(const std::filesystem::path& config, bool given);

// Those of the office: at `config`, else where the environment says they lie. Faults: also no such place.
[[nodiscard]] units::Result<settings::Settings> settings_for(const Common& common, const std::optional<std::filesystem::path>& config);

}  // namespace app
