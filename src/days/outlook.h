// The hours ahead of one tree: air, soil and leaves brought together on one clock, hour by hour, for the control run, for every
// ensemble member or for every service that was asked.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "air/hours.h"
#include "soil/hours.h"
#include "tree/parameters.h"
#include "units/time.h"
#include "uptake/hour.h"
#include "weather/alert.h"
#include "weather/series.h"

namespace days {

// What stops work, as far as the hours themselves tell. Means or maxima over the hour that the label ends.
struct HourSigns {
  std::optional<double> gust_m_s;
  std::optional<double> thunder_pct;
  std::optional<double> cloud_pct;
  double leaves_out = 1.0;                // share of a full crown's leaves by the leaf calendar, whatever crown this tree has
  bool rain_known = true;                 // an amount is forecast
  std::optional<double> rain_chance_pct;  // of rain in the hour
};

// What a course's own service says of an hour's rain.
struct RainSaid {
  bool known = true;  // an amount is forecast
  std::optional<double> chance_pct;
};

struct Outlook {
  units::UtcHour first_label{};                           // the label that ends hour 0
  std::vector<std::vector<uptake::HourWeather>> courses;  // control alone, or every member or service; all of one length
  std::vector<HourSigns> signs;                           // of the control, as many hours
  units::UtcTime issued{};                                // when the forecast was made; lead times count from here
  bool shifted = true;  // forecast error is laid on top: true for a run of a service, false where members already differ
  std::vector<std::vector<RainSaid>> rain_said;  // by course where several services speak, as many hours; else empty and `signs` tell
  std::size_t known = 0;                    // hours with weather; the rest repeats the last known day, so that a late start can run out
  std::vector<weather::Alert> alerts = {};  // of the weather service for the site, in force or to come
  std::vector<std::string> notes;           // what had to be assumed, one line each

  [[nodiscard]] std::size_t hours() const { return signs.size(); }
  // The instant at which hour `index` begins.
  [[nodiscard]] units::UtcTime begins(std::size_t index) const { return first_label + std::chrono::hours{static_cast<long>(index) - 1}; }
  // The hour that contains `instant`; empty outside.
  [[nodiscard]] std::optional<std::size_t> hour_at(units::UtcTime instant) const;
};

// Inputs to one course: air and soil of the same hours, and the series they come from.
struct Course {
  const air::AirHours* air;
  const soil::Hours* soil;
  const weather::Series* said;
};

struct Leaves {
  std::vector<double> out;  // share of a full crown's leaves by the leaf calendar, hour by hour
  double crown_now = 1.0;   // the crown as the crew sees it against a full one
};

// Where the outlook stands in time.
struct Reach {
  units::UtcTime now;     // hours before it are the past
  units::UtcTime issued;  // of the forecast
  std::size_t extra_h;    // repeated behind the last known hour
  bool services = false;  // several courses are several services, each with its own error, and no ensemble
};

// Brings courses (control first when alone) together. Temperature and dew point of an hour are the means of its two ends. Where a source
// gives neither shortwave nor cloud, the day's range of temperature stands in (FAO-56 eq. 50). It begins with the first hour that has
// temperature and humidity. A past hour without them takes the air of the same clock hour a day or more before (or of the next known hour);
// an hour to come without them ends the outlook. `known` counts the hours up to there, then the last 24 are repeated until `extra_h` more
// stand behind.
[[nodiscard]] Outlook bring_together(std::span<const Course> courses, const Leaves& leaves, const units::Site& site, const Reach& reach);

}  // namespace days
