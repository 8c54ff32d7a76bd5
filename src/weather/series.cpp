#include "weather/series.h"

#include <algorithm>

namespace weather {

bool Column::empty() const {
  return std::all_of(provenance_.begin(), provenance_.end(), [](Provenance p) { return p == Provenance::missing; });
}

Series::Series(units::UtcHour first_label, std::size_t hours) : first_(first_label), hours_(hours) {
  for (Column& column : columns_) column.resize(hours);
}

std::optional<std::size_t> Series::index_of(units::UtcHour label) const {
  const auto offset = (label - first_).count();
  if (offset < 0 || static_cast<std::size_t>(offset) >= hours_) return std::nullopt;
  return static_cast<std::size_t>(offset);
}

bool Series::any(std::size_t hour) const {
  const auto has = [hour](const Column& column) { return column.has(hour); };
  return std::any_of(columns_.begin(), columns_.end(), has) ||
         std::any_of(soil.begin(), soil.end(), [&](const SoilLayer& layer) { return has(layer.moisture_m3_m3) || has(layer.temperature_c); });
}

}  // namespace weather
