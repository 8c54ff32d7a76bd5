// Keys of paid services: from the environment or from a file that nobody else can read.
#pragma once
#include <optional>
#include <string>

#include "settings/places.h"
#include "settings/settings.h"
#include "units/fault.h"

namespace settings {

// The key for `service`: SAPDRAW_OPEN_METEO_KEY for open-meteo, else the first line of the file that the settings name; empty where neither
// is. Faults, which never hold the key: a file that is missing, not a file, readable by others (mode must be 0600 or 0400), empty, or
// whose line could not stand in a header.
[[nodiscard]] units::Result<std::optional<std::string>> key_of(const std::string& service, const Settings& settings,
                                                               const Environment& environment);

}  // namespace settings
