#include "uptake/other_trees.h"

#include <cstdio>

#include "uptake/bench.h"

namespace other_trees {
namespace {

constexpr const char* begins = "<!-- other-trees -->\n";
constexpr const char* ends = "<!-- end of other-trees -->";

struct Column {
  const char* title;
  bench::Weather weather;
};

bench::Weather with_rew(double rew, double saturated_h = 0.0) {
  bench::Weather w;
  w.rew = rew;
  w.saturated_h = saturated_h;
  return w;
}

bench::Weather cold_spring() {
  bench::Weather w;
  w.temp_mean_c = 10.0;
  w.temp_swing_c = 4.0;
  w.dew_point_c = 4.0;
  w.soil_temp_c = 6.0;
  w.leaf_share = 0.5;
  return w;
}

bench::Weather heat_dome() {
  bench::Weather w;
  w.temp_mean_c = 33.0;
  w.temp_swing_c = 7.0;
  w.dew_point_c = 18.0;
  w.soil_temp_c = 25.0;
  w.rew = 0.6;
  return w;
}

// Hours until the dose is in, or its share after a day.
std::string cell(const uptake::Subject& subject, const soil::Texture& texture, const bench::Weather& weather) {
  constexpr double start_h = 4.0, day_h = 24.0;  // from 05:00 on
  const bench::Case c{subject, soil::RewCurve{texture}, bench::hours(weather, 5, 30)};
  const uptake::Draw<double> draw = bench::middle(c);
  const double dose_h = bench::run(bench::day(c, draw), start_h).finish.dose_h;
  char text[32];
  if (dose_h <= day_h)
    std::snprintf(text, sizeof text, "%.1f", dose_h);
  else
    std::snprintf(text, sizeof text, "%.0f %%", 100.0 * bench::volume(c, draw, start_h, day_h) / subject.dose.value);
  return text;
}

std::string head(const std::string& first, const std::vector<Column>& columns) {
  std::string line = "| " + first + " |", rule = "|---|";
  for (const Column& column : columns) {
    line += std::string{" "} + column.title + " |";
    rule += "---|";
  }
  return line + '\n' + rule + '\n';
}

std::string row(const std::string& name, const uptake::Subject& subject, const soil::Texture& texture, const std::vector<Column>& columns) {
  std::string line = "| " + name + " |";
  for (const Column& column : columns) line += ' ' + cell(subject, texture, column.weather) + " |";
  return line + '\n';
}

// One species for each port figure there is, of 60 cm on loam.
std::string kinds() {
  const std::vector<Column> columns{{"good day", {}},
                                    {"REW 0.4", with_rew(0.4)},
                                    {"REW 0.2", with_rew(0.2)},
                                    {"flooded", with_rew(1.2, 48.0)},
                                    {"cold spring", cold_spring()},
                                    {"heat dome, REW 0.6", heat_dome()}};
  std::string table = head("60 cm on loam", columns);
  std::vector<double> told;
  for (const tree::Species& species : shipped::models().species) {
    if (std::ranges::find(told, species.port_factor) != told.end()) continue;
    told.push_back(species.port_factor);
    table += row(species.english.front(), bench::subject(60.0, species.key), shipped::texture("loam"), columns);
  }
  return table;
}

std::string soils() {
  const std::vector<Column> columns{{"REW 1.0", with_rew(1.0)}, {"0.8", with_rew(0.8)},   {"0.6", with_rew(0.6)},
                                    {"0.4", with_rew(0.4)},     {"0.3", with_rew(0.3)},   {"0.2", with_rew(0.2)},
                                    {"0.1", with_rew(0.1)},     {"0.02", with_rew(0.02)}, {"flooded", with_rew(1.2, 48.0)}};
  std::string table = head("140 cm elm on", columns);
  for (const soil::Texture& texture : shipped::models().textures) table += row(texture.name, bench::subject(140.0), texture, columns);
  return table;
}

}  // namespace

std::string with_tables(std::string document) {
  const auto begin = document.find(begins);
  const auto end = document.find(ends);
  if (begin == std::string::npos || end == std::string::npos) return document;
  const auto from = begin + std::string{begins}.size();
  return document.replace(from, end - from, kinds() + '\n' + soils());
}

}  // namespace other_trees
