#include "app/demand_command.h"

#include <array>
#include <nlohmann/json.hpp>
#include <utility>

#include "app/csv.h"
#include "app/one_tree.h"
#include "app/site_hours.h"
#include "app/weather_files.h"
#include "uptake/day.h"

namespace app {
namespace {

struct Row {
  double vpd_kpa, shortwave_w_m2, rew, wet_fraction, demand_l_h, psi_base_mpa, psi_leaf_mpa;
};

constexpr std::array<std::pair<const char*, double Row::*>, 7> columns{{{"vpd_kpa", &Row::vpd_kpa},
                                                                        {"shortwave_w_m2", &Row::shortwave_w_m2},
                                                                        {"rew", &Row::rew},
                                                                        {"wet_fraction", &Row::wet_fraction},
                                                                        {"demand_l_h", &Row::demand_l_h},
                                                                        {"psi_base_mpa", &Row::psi_base_mpa},
                                                                        {"psi_leaf_mpa", &Row::psi_leaf_mpa}}};

// The undrilled tree, from rest, through the known hours of the first course.
std::vector<Row> rows_of(const days::TreeCase& tree, const days::Outlook& outlook) {
  const std::span weather{outlook.courses.front().data(), outlook.known};
  const std::vector<uptake::Shift<double>> none(weather.size());
  uptake::Day<double> day;
  uptake::prepare<double>(tree.subject, uptake::central_draw(tree.subject.source), tree.curve, weather, none, 0.0, day);
  std::vector<Row> rows;
  uptake::Water<double> water = uptake::at_rest(day);
  uptake::rest(day, 0, day.steps(), water, [&](std::size_t step, const uptake::Flows<double>&, const uptake::Water<double>& now) {
    if ((step + 1) % day.steps_an_hour != 0) return;
    const uptake::Hour<double>& hour = day.at(step);
    const uptake::HourWeather& w = weather[rows.size()];
    rows.push_back(
        {hour.vpd_kpa, w.shortwave_w_m2, w.rew, hour.wet_share, hour.demand_l_h + hour.cuticle_l_h, now.base_mpa, now.crown_mpa});
  });
  return rows;
}

std::string label(const days::Outlook& outlook, std::size_t hour) { return units::to_text(outlook.begins(hour + 1)); }

std::string as_csv(const std::vector<Row>& rows, const days::Outlook& outlook) {
  std::string text = "time_utc";
  for (const auto& [name, member] : columns) text.append(",").append(name);
  text += '\n';
  for (std::size_t hour = 0; hour < rows.size(); ++hour) {
    text += label(outlook, hour);
    for (const auto& [name, member] : columns) {
      text += ',';
      text += csv::number(rows[hour].*member);
    }
    text += '\n';
  }
  return text;
}

std::string as_json(const std::vector<Row>& rows, const days::Outlook& outlook, const std::string& tree) {
  auto hours = nlohmann::ordered_json::array();
  for (std::size_t hour = 0; hour < rows.size(); ++hour) {
    nlohmann::ordered_json object{{"time_utc", label(outlook, hour)}};
    for (const auto& [name, member] : columns) object[name] = rows[hour].*member;
    hours.push_back(std::move(object));
  }
  return nlohmann::ordered_json{{"tree", tree}, {"hours", std::move(hours)}}.dump(2) + "\n";
}

}  // namespace

Outcome demand_command(const Common& common, const DemandRequest& request) {
  Outcome outcome;
  WeatherFiles files = read_weather_files(request.weather, common.now, outcome);
  // A record that only looks back is weather enough here.
  if (files.forecasts.empty()) files.forecasts = std::exchange(files.records, {});
  const auto tree = one_tree(common, request.trees, request.tree, outcome);
  if (!tree || files.forecasts.empty()) return outcome;
  const auto weather = weather_for(files, tree->row.site);
  if (!weather) {
    outcome.refuse(weather.error());
    return outcome;
  }
  const auto hours = site_hours(*weather, {tree->row.site, true}, tree->tree.zone, tree->ground, tree->leaves, common.now,
                                request.weather.wind_height_m, 0);
  if (!hours) {
    outcome.refuse(hours.error());
    return outcome;
  }
  for (const auto& notes : {weather->notes, hours->outlook.notes})
    for (const std::string& note : notes) outcome.warn(note);
  const auto rows = rows_of(tree->tree, hours->outlook);
  outcome.out = common.format == Format::json ? as_json(rows, hours->outlook, tree->row.tree) : as_csv(rows, hours->outlook);
  return outcome;
}

}  // namespace app
