// How far the weather of a day may lie from its forecast: growing with lead time, going together from hour to hour and day to day,
// temperature with dew point and rain with cloud. Sources and confidence in models/weather-error.json. docs/model/days.md (14)-(16).
#pragma once
#include <cstdint>
#include <vector>

#include "days/outlook.h"
#include "days/practice.h"
#include "uptake/ensemble.h"

namespace days {

// The figure at `lead_d` days: linear between the table's points, flat outside them.
[[nodiscard]] double at_lead(const ByLead& table, double lead_d);

// The hour's rain as a forecast may be read: rain falls with `chance` (0..1), and then this much on average.
struct RainOdds {
  double chance;
  double amount_mm;
};
// From the amount (nothing where unknown) and the chance that a forecast gives. With an amount the mean, chance x amount, stays the
// forecast's. Without a chance the amount's own record speaks (hits, misses), without both the usual weather.
[[nodiscard]] RainOdds rain_odds(const WeatherError& error, std::optional<double> amount_mm, std::optional<double> chance_pct,
                                 double lead_d);

// A draw's weather less the first course, in the mean over some hours; and the share of them in which it rains.
struct Departure {
  double temp_c = 0.0, dew_point_c = 0.0, cloud = 0.0, rain_share = 0.0;
};

// The weather that every draw lives through over one outlook. A service's run takes errors, every draw its own, the same for every tree and
// start; where several services speak, block b of the draws follows service b modulo their number. Members of an ensemble stay as they are.
// Draw i uses point i of Sobol's sequence under `seed`, in the coordinates behind those of its tree (uptake/draw.h). An hour's error does
// not depend on the number of draws.
class ForecastError {
 public:
  ForecastError(const Outlook& outlook, const WeatherError& error, std::size_t blocks, std::uint64_t seed);

  // Hours [from, until) for each block of draws, or for each member.
  [[nodiscard]] std::vector<uptake::Scenario> scenarios(std::size_t from, std::size_t until) const;
  // Of the first `draws` draws over hours [from, until), at least one; empty for an ensemble.
  [[nodiscard]] std::vector<Departure> departures(std::size_t from, std::size_t until, std::size_t draws) const;

 private:
  // The hours that a block of draws departs from.
  [[nodiscard]] const std::vector<uptake::HourWeather>& course_of(std::size_t block) const {
    return outlook_.courses[block % outlook_.courses.size()];
  }

  const Outlook& outlook_;
  std::vector<std::vector<uptake::Shift<units::Lanes>>> shifts_;  // by block, hour by hour
};

}  // namespace days
