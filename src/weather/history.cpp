#include "weather/history.h"

#include <algorithm>

#include "weather/horizon.h"

namespace weather {

bool is_record(const Forecast& forecast, units::UtcTime now) {
  const Series& s = forecast.control;
  for (std::size_t hour = s.hours(); hour-- > 0;) {
    if (s.label(hour) <= now) return true;
    if (enough(s, hour)) return false;
  }
  return true;
}

namespace {

// An hour's humidity belongs to its temperature: a model's must not stand beside a station's.
bool own_humidity(const Series& record, std::size_t hour) {
  return record[Variable::temperature].has(hour) &&
         (record[Variable::relative_humidity].has(hour) || record[Variable::dew_point].has(hour));
}

}  // namespace

Series with_record(const Series& forecast, const Series& record) {
  if (record.hours() == 0) return forecast;
  const units::UtcHour first = std::min(forecast.first_label(), record.first_label());
  const units::UtcHour last = forecast.label(forecast.hours());
  Series joined{first, static_cast<std::size_t>((last - first).count())};
  for (std::size_t v = 0; v < variable_count; ++v) {
    const auto variable = static_cast<Variable>(v);
    const bool humidity = variable == Variable::relative_humidity || variable == Variable::dew_point;
    for (std::size_t hour = 0; hour < joined.hours(); ++hour) {
      for (const Series* source : {&forecast, &record}) {
        const auto index = source->index_of(joined.label(hour));
        const auto recorded = record.index_of(joined.label(hour));
        if (humidity && source == &forecast && recorded && own_humidity(record, *recorded)) continue;
        if (index && (*source)[variable].has(*index))
          joined[variable].set(hour, *(*source)[variable].at(*index), (*source)[variable].provenance(*index));
      }
    }
  }
  const auto shift = static_cast<std::size_t>((forecast.first_label() - first).count());
  for (const SoilLayer& layer : forecast.soil) {
    SoilLayer moved{layer.top, layer.bottom, Column{joined.hours()}, Column{joined.hours()}};
    for (std::size_t hour = 0; hour < forecast.hours(); ++hour) {
      if (layer.moisture_m3_m3.has(hour))
        moved.moisture_m3_m3.set(hour + shift, *layer.moisture_m3_m3.at(hour), layer.moisture_m3_m3.provenance(hour));
      if (layer.temperature_c.has(hour))
        moved.temperature_c.set(hour + shift, *layer.temperature_c.at(hour), layer.temperature_c.provenance(hour));
    }
    joined.soil.push_back(std::move(moved));
  }
  return joined;
}

}  // namespace weather
