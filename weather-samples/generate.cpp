// Writes every invented forecast into a folder: `write-weather-samples FOLDER`. The same bytes on every run.
#include <fmt/format.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

#include "generator/hours.h"
#include "generator/met_forecast.h"
#include "generator/nws_grid.h"
#include "generator/open_meteo.h"
#include "generator/station_csv.h"
#include "generator/stories.h"

namespace {

using namespace samples;
using std::chrono::hours;

constexpr int ensemble_members = 12;
constexpr int ensemble_past_days = 30;
constexpr int ensemble_days = 8;

void write(const std::filesystem::path& file, const std::string& text) {
  std::ofstream out{file, std::ios::binary};
  out << text;
  out.close();
  if (!out) throw std::runtime_error(fmt::format("{}: cannot be written", file.string()));
}

UtcHour today(const Story& story) { return std::chrono::floor<std::chrono::days>(story.now); }

std::string forecast(const Story& story, int days_ahead, const OpenMeteoOptions& options = {}) {
  return open_meteo_forecast(story, between(tell(story), story.first, today(story) + hours{24 * days_ahead - 1}), options);
}

std::string members() {
  std::vector<std::vector<Hour>> told;
  const std::vector<Story> stories = ensemble(ensemble_members);
  const UtcHour start = today(stories.front());
  for (const Story& story : stories)
    told.push_back(between(tell(story), start - hours{24 * ensemble_past_days}, start + hours{24 * ensemble_days - 1}));
  return open_meteo_ensemble(stories.front(), told);
}

void write_harrow_point(const std::filesystem::path& folder) {
  const Story story = harrow_point();
  const std::vector<Hour> told = tell(story);
  const UtcHour grid_start = story.now - hours{8};
  write(folder / "nws-grid.json", nws_grid(story, between(told, grid_start, grid_start + hours{24 * 7 + 13}), story.now - hours{1}));
  write(folder / "met-forecast.json", met_forecast(story, between(told, story.now, story.now + hours{24 * 9 + 8})));
  write(folder / "station.csv", station_csv(story, between(told, story.now - hours{24 * 60 - 1}, story.now)));
}

void write_all(const std::filesystem::path& folder) {
  std::filesystem::create_directories(folder);
  write(folder / "demo-fortnight.json", forecast(demo_fortnight(), 16, {.last_day_empty = true}));
  write(folder / "fair-week.json", forecast(fair_week(), 14));
  write(folder / "wet-week.json", forecast(wet_week(), 14));
  const Story fair = fair_week();
  write(folder / "fair-week-met.json", met_forecast(fair, between(tell(fair), fair.now, fair.now + hours{24 * 9 + 8})));
  write(folder / "stormy-tuesday.json", forecast(stormy_tuesday(), 10));
  write(folder / "dry-spell.json", forecast(dry_spell(), 10));
  write(folder / "heat-dome.json", forecast(heat_dome(), 10, {.wind_unit = WindUnit::kilometres_per_hour}));
  write(folder / "week-of-overcast.json", forecast(week_of_overcast(), 10));
  write(folder / "cold-spring.json", forecast(cold_spring(), 10));
  write(folder / "saturated-clay.json", forecast(saturated_clay(), 10));
  write(folder / "ensemble.json", members());
  write_harrow_point(folder);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    fmt::print(stderr, "usage: write-weather-samples FOLDER\n");
    return 2;
  }
  try {
    write_all(argv[1]);
  } catch (const std::exception& fault) {
    fmt::print(stderr, "{}\n", fault.what());
    return 5;
  }
  return 0;
}
