// From what the services said of each cell to the one course of weather, or several, that a site's trees live through.
#pragma once
#include <chrono>
#include <map>
#include <string>
#include <vector>

#include "app/office.h"
#include "app/weather_files.h"

namespace app {

class OfficeSites {
 public:
  // Forecasts older than `limit` are left out where a younger one is at hand.
  OfficeSites(const OfficeWeather& office, units::UtcTime now, std::chrono::hours limit);

  // Fault: no service and no cache has a forecast for the site.
  [[nodiscard]] units::Result<SiteWeather> at(const units::Site& site) const;
  // Who speaks for the hour that `label` ends; empty for past hours and where nobody does.
  [[nodiscard]] std::string speaker(const units::Site& site, units::UtcHour label) const;

 private:
  struct Ready {
    weather::Forecast told;  // by whom: source, credit, issue, place
    SiteWeather weather;
    std::map<units::UtcHour, std::string> speakers;  // ahead of now
  };
  std::map<sources::Cell, Ready> ready_;
};

}  // namespace app
