// Readings of the tank at one tree, answered: what `reading` prints, before it is put into words.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/request.h"
#include "app/site_hours.h"
#include "app/tree_case.h"
#include "days/at_the_tree.h"
#include "days/holds.h"

namespace app {

struct TankReading {
  units::UtcTime at;
  units::Litres taken;       // by the tree, since the valves opened
  std::string where, found;  // for a fault: "--taken", "10:00 12gal"
};

// A job whose valves have opened on mix.
struct JobUnderWay {
  units::UtcTime opened;
  std::vector<TankReading> readings;      // in any order, none is allowed
  std::optional<units::UtcTime> shut_by;  // else the tree's leave-by or the work day's end, less tear-down
  std::optional<units::Litres> mixed;     // put into the tank so far (days/at_the_tree.h)
  std::size_t draws = 4096;               // possible trees
};

struct ReadingReport {
  TreeInFull tree;
  units::UtcTime opened;
  std::vector<TankReading> readings;  // by time
  units::UtcTime shut_by;
  std::optional<days::Hold> hold;  // shuts the valves before that: the tank's advice counts until it begins
  days::TreeNow now;
  std::string source, credit;  // of the weather
  std::optional<units::UtcTime> issued_at;
  std::vector<std::string> notes;  // on the weather and on times that lie ahead

  [[nodiscard]] std::optional<units::UtcTime> at() const;  // of the last reading
  [[nodiscard]] units::Litres taken() const;               // at the last reading
};

// Whether the readings can be one job's, whatever the weather: fault as below.
[[nodiscard]] units::Result<void> check_readings(const Common& common, const TreeInFull& tree, const JobUnderWay& job);

// Fault: weather that does not reach from 4 h before the opening to beyond it; a reading before the opening or a day after it, above the
// dose by more than the tank's error, or below an earlier one.
[[nodiscard]] units::Result<ReadingReport> reading_report(const Common& common, const TreeInFull& tree, const SiteWeather& weather,
                                                          std::optional<double> wind_height_m, const JobUnderWay& job);

}  // namespace app
