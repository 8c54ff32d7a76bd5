#include "app/weather_options.h"

#include "app/option_range.h"

namespace app {

units::Result<void> check(const WeatherRequest& request) {
  if (request.latitude_deg.has_value() != request.longitude_deg.has_value())
    return units::fault(request.latitude_deg ? "--lon" : "--lat", "", "missing: latitude and longitude go together");
  for (const auto& ok : {within("--lat", request.latitude_deg, -90.0, 90.0, "a latitude"),
                         within("--lon", request.longitude_deg, -180.0, 180.0, "a longitude"),
                         within("--elevation-m", request.elevation_m, -430.0, 9000.0, "metres above sea level"),
                         within("--wind-height-m", request.wind_height_m, 0.5, 200.0, "metres above ground")})
    if (!ok) return ok;
  return {};
}

}  // namespace app
