// Writes hours as the record of a weather station, with the gaps that such records have.
#pragma once
#include <string>
#include <vector>

#include "generator/hours.h"

namespace samples {

[[nodiscard]] std::string station_csv(const Story& story, const std::vector<Hour>& hours);

}  // namespace samples
