// From the weather at a site to the hours a tree lives through: air, root zone and leaves, past and ahead.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/weather_files.h"
#include "days/outlook.h"
#include "params/models.h"
#include "soil/root_zone.h"
#include "soil/water_balance.h"

namespace app {

struct Ground {
  soil::RootZone zone;
  std::optional<double> rew_now;  // as somebody stated it
};

struct LeafFacts {
  tree::LeafCalendar calendar;
  std::optional<units::LocalDay> full_leaf_seen;
  double crown_now = 1.0;
};

struct SiteHours {
  days::Outlook outlook;
  air::AirHours air;     // of the control, over the whole series
  soil::Run soil;        // likewise
  std::vector<double> leaves_out;
  double past_days = 0.0;          // with weather before now
  double rew_now = 0.0, rew_sd_now = 0.0;
  std::string soil_story;          // how the soil's state was come by, for a person
};

// Runs air, leaves and root zone over the control and every member, from the first hour on, corrected at `now` by the provider's soil
// moisture and by a stated REW. Hours of `extra_h` are appended for jobs that run past the forecast (days/outlook.h).
// Fault: no hour with temperature and humidity, or numbers that the balance refuses.
[[nodiscard]] units::Result<SiteHours> site_hours(const SiteWeather& weather, const Place& place, const units::ZoneOffsets& zone, const Ground& ground,
                                                  const LeafFacts& leaves, units::UtcTime now, std::optional<double> wind_height_m,
                                                  std::size_t extra_h);

}  // namespace app
