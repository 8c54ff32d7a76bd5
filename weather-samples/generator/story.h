// A sample before it has hours: an invented place and a few figures for each of its days.
#pragma once
#include <array>
#include <chrono>
#include <cstdint>
#include <string>
#include <vector>

namespace samples {

using UtcHour = std::chrono::sys_time<std::chrono::hours>;

struct Ground {  // volumetric water contents, m3/m3
  double wilting, field_capacity, saturation;
  double first_fill;      // 0 at wilting .. 1 at field capacity, on the first day
  double drains_per_day;  // share of the water above field capacity that leaves a layer in a day
};

struct Place {
  std::string name;
  double lat, lon, elevation_m;
  int clock_offset_h;  // daylight-saving clock minus UTC, kept for the whole sample: it only places the days
  Ground ground;
};

struct Rain {
  double from_h;  // clock hour of its day; may lie beyond midnight
  int hours;
  double total_mm;
  bool thunder = false;
};

struct Day {
  double low_c, high_c;
  double dew_c;                     // at noon
  std::array<double, 4> cloud_pct;  // at 03, 09, 15 and 21 h
  double wind_m_s;                  // mean over the day, 10 m
  double sea_level_hpa;             // at noon
  std::vector<Rain> rain = {};
};

struct Story {
  Place place;
  UtcHour first;          // 00:00 UTC of the first date
  UtcHour now;            // hours up to here are past
  std::vector<Day> days;  // clock days, the first one starting a day before `first`
  std::uint64_t seed;
  // An ensemble's member has noise of its own from `now` on; 0 is the control.
  std::uint64_t member = 0;
};

}  // namespace samples
