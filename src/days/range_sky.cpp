#include "days/range_sky.h"

#include <algorithm>

#include "air/shortwave.h"
#include "air/sun.h"

namespace days {

double range_sky_share(const air::AirHours& air, const units::Site& site, std::size_t hour) {
  double low = 1e9, high = -1e9;
  for (std::size_t i = hour >= 12 ? hour - 12 : 0; i < std::min(hour + 12, air.hours()); ++i)
    if (const auto t = air.temp_c.at(i)) {
      low = std::min(low, *t);
      high = std::max(high, *t);
    }
  if (low > high) return 1.0;
  const units::LocalDay day = air::solar_date(air.label(hour), site.longitude);
  const auto above = air::extraterrestrial_daily(air::solar_day(units::day_of_year(day), site.latitude));
  constexpr double inland = 0.16;  // FAO-56 eq. 50
  const double range = air::from_temperature_range(above, units::Celsius{high}, units::Celsius{low}, inland).value;
  return std::clamp(range / air::clear_sky(above, site.elevation).value, 0.25, 1.0);
}

}  // namespace days
