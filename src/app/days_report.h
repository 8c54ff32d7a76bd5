// "Which day?" answered for a list of trees: what `days` prints, before it is put into words.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/office.h"
#include "app/outcome.h"
#include "app/request.h"
#include "app/tree_case.h"
#include "days/rank.h"
#include "days/wait.h"

namespace app {

// A day as a tree is booked for it.
struct BookedDay {
  units::LocalDay day{};
  std::optional<std::chrono::minutes> arrive = {};    // local clock; without it the best of that day
  std::optional<std::chrono::minutes> leave_by = {};  // of crew or site, beside the tree's own
  bool prepared = false;                              // flare dug and laid out before
  bool needed = true;                                 // else a day that the weather does not reach is passed over without a word
};

struct DaysRequest {
  WeatherRequest weather;  // without a forecast among its files the office's own weather serves
  OfficeRequest office = {};
  std::optional<std::filesystem::path> rain = {};  // what gauges at the sites caught: CSV (feeds/gauge_csv.h)
  std::filesystem::path trees;
  std::string only_tree;    // an id; empty for all
  std::size_t draws = 256;  // possible trees, more for more certain odds; rounded up to whole blocks of every ensemble member
  // By tree: only these trees, each for its day alone, which may have begun. Such a report has one answer a tree and no ranking.
  std::map<std::string, BookedDay> booked = {};
};

struct TreeReport {
  TreeInFull tree;
  std::size_t weather = 0;  // index into DaysReport::weather
  std::string soil_story;
  double rew_now = 0.0, rew_sd_now = 0.0;
  std::optional<SoilAlone> soil_alone;
  std::vector<std::string> notes;
  bool forecast_old = false;             // no day is GO for that
  std::vector<days::DayAnswer> answers;  // by date
  std::vector<days::Ranked> ranking;     // best first
  std::optional<days::Wait> wait;        // where a fresher forecast is worth more than a decision now
  days::Decider decider{{}, {}, units::ZoneOffsets::utc()};
};

struct WeatherUsed {
  std::string source, credit;
  std::optional<units::UtcTime> issued_at;
  std::optional<units::Site> place;
  std::size_t members = 0;
  double past_days = 0.0;
};

struct Refused {
  std::string tree;  // its id as far as it could be read
  std::string why;   // the line that also goes to stderr
};

struct DaysReport {
  units::UtcTime made_at;
  std::vector<WeatherUsed> weather;
  std::vector<TreeReport> trees;
  std::vector<Refused> refused;
};

// Reads weather and trees and answers for every tree that can be answered for; the others stand in `refused`, and their line and
// exit code in `outcome`.
[[nodiscard]] DaysReport days_report(const Common& common, const DaysRequest& request, Outcome& outcome);

}  // namespace app
