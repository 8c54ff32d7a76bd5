// From the weather at a site to the hours a tree lives through: air, root zone and leaves, past and ahead.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/weather_files.h"
#include "days/outlook.h"
#include "params/models.h"
#include "soil/observation.h"
#include "soil/root_zone.h"
#include "soil/water_balance.h"

namespace app {

// What somebody found in the ground, on one day.
struct SoilLook {
  struct Probe {
    double depth_cm = 0.0, theta = 0.0;
  };
  std::optional<units::LocalDay> on;  // empty: now
  std::optional<double> rew;          // as stated, of the whole root zone
  std::optional<Probe> probe;
  std::optional<soil::Feel> feel;

  [[nodiscard]] bool says_something() const { return rew || probe || feel; }
};

struct Ground {
  soil::RootZone zone;
  SoilLook look;
};

struct LeafFacts {
  tree::LeafCalendar calendar;
  std::optional<units::LocalDay> full_leaf_seen;
  double crown_now = 1.0;
};

// What the balance would say at now without anybody's word on the ground, and whose word it was.
struct SoilAlone {
  double rew = 0.0, rew_sd = 0.0;
  std::vector<std::string> corrected_by;  // "the probe on Wed Jun 24"
};

struct SiteHours {
  days::Outlook outlook;
  air::AirHours air;     // of the control, over the whole series
  soil::Run soil;        // likewise
  std::vector<double> leaves_out;
  double past_days = 0.0;          // with weather before now
  double rew_now = 0.0, rew_sd_now = 0.0;
  std::optional<SoilAlone> soil_alone;  // empty where nothing corrected the model
  std::string soil_story;          // how the soil's state was come by, for a person
};

// Runs air, leaves and root zone over the control and every member, from the first hour on, corrected at `now` by the provider's soil
// moisture, and on its day by what somebody found in the ground (at noon there, or now where no day is given; a look before the weather
// begins is told of and not used). Hours of `extra_h` are appended for jobs that run past the forecast (days/outlook.h).
// Fault: no hour with temperature and humidity, or numbers that the balance refuses.
[[nodiscard]] units::Result<SiteHours> site_hours(const SiteWeather& weather, const Place& place, const units::ZoneOffsets& zone, const Ground& ground,
                                                  const LeafFacts& leaves, units::UtcTime now, std::optional<double> wind_height_m,
                                                  std::size_t extra_h);

}  // namespace app
