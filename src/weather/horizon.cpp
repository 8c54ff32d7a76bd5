#include "weather/horizon.h"

namespace weather {

bool enough(const Series& series, std::size_t hour) {
  return series[Variable::temperature].has(hour) &&
         (series[Variable::relative_humidity].has(hour) || series[Variable::dew_point].has(hour));
}

std::optional<units::UtcHour> horizon(const Series& series, units::UtcHour from) {
  const auto first = series.index_of(from);
  if (!first || !enough(series, *first)) return std::nullopt;
  std::size_t last = *first;
  while (enough(series, last + 1)) ++last;
  return series.label(last);
}

}  // namespace weather
