// Writes hours in the reply shape of Open-Meteo's forecast and ensemble services (timezone=GMT, timeformat=unixtime).
#pragma once
#include <string>
#include <vector>

#include "generator/hours.h"

namespace samples {

enum class WindUnit { metres_per_second, kilometres_per_hour };

struct OpenMeteoOptions {
  WindUnit wind_unit = WindUnit::metres_per_second;
  bool last_day_empty = false;  // the sixteenth day of a request comes back as nulls
};

// `hours` start and end on whole UTC dates. Rain chances are null up to `story.now`, as the service does not keep them.
[[nodiscard]] std::string open_meteo_forecast(const Story& story, const std::vector<Hour>& hours, const OpenMeteoOptions& options);

// The control and its members, all over the same labels: `temperature_2m`, `temperature_2m_member01` ...
[[nodiscard]] std::string open_meteo_ensemble(const Story& story, const std::vector<std::vector<Hour>>& members);

}  // namespace samples
