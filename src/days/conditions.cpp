#include "days/conditions.h"

#include <algorithm>

#include "air/humidity.h"

namespace days {

Conditions conditions(const Outlook& outlook, const Frame& frame, const CrownWater& crown, const HoldLimits& limits, std::size_t start) {
  const auto& course = outlook.courses.front();
  Conditions c;
  c.rew = course[start].rew;
  c.temp_max_c = -100.0;
  double cloud = 0.0, cloudy_hours = 0.0;
  for (std::size_t i = frame.first >= 168 ? frame.first - 168 : 0; i < frame.first; ++i) c.rain_7d_mm += course[i].rain_mm;
  for (std::size_t i = frame.first; i < frame.day_end; ++i) {
    const uptake::HourWeather& w = course[i];
    const auto es = [](double t) { return air::saturation_pressure(units::Celsius{t}); };
    c.vpd_kpa_max = std::max(c.vpd_kpa_max, air::vapour_pressure_deficit(es(w.temp_c), es(w.dew_point_c)).value);
    c.temp_max_c = std::max(c.temp_max_c, w.temp_c);
    c.rain_today_mm += w.rain_mm;
    if (const auto gust = outlook.signs[i].gust_m_s) c.gust_max_m_s = std::max(c.gust_max_m_s.value_or(0.0), *gust);
    if (w.clear_sky_w_m2 <= 0.0) continue;
    if (crown.wet_share[i] >= limits.wet_crown_share) c.wet_leaf_h += 1.0;
    if (const auto sky = outlook.signs[i].cloud_pct) {
      cloud += *sky;
      cloudy_hours += 1.0;
    }
  }
  if (cloudy_hours > 0.0) c.cloud_pct_mean = cloud / cloudy_hours;
  return c;
}

}  // namespace days
