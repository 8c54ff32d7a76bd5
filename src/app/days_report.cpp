#include "app/days_report.h"

#include <fmt/format.h>

#include <functional>
#include <map>

#include "app/gauge.h"
#include "app/office_of_list.h"
#include "app/parallel.h"
#include "app/tree_list.h"

namespace app {
namespace {

constexpr std::size_t hours_behind_the_forecast = 48;  // a job that starts late on the last day runs on into them

void refuse(const std::string& tree, const units::Fault& fault, DaysReport& report, Outcome& outcome) {
  outcome.refuse(fault);
  report.refused.push_back({tree, fault.line()});
}

// The trees of the list that can be looked up.
std::vector<TreeInFull> trees_of(const Common& common, const DaysRequest& request, const TreeList& list, DaysReport& report,
                                 Outcome& outcome) {
  std::vector<TreeInFull> trees;
  const std::string& name = list.name;
  const feeds::TreesFile* file = &list.file;
  const auto wanted = [&](const std::string& id) {
    return (request.only_tree.empty() || request.only_tree == id) && (request.booked.empty() || request.booked.contains(id));
  };
  if (file->trees.empty() && file->refused.empty() && request.only_tree.empty())
    outcome.refuse({name, "", request.trees.empty() ? "expected a tree: it holds none" : "expected at least one tree below the header"});
  for (const auto& refused : file->refused)
    if (wanted(refused.tree))
      for (const auto& fault : refused.faults) refuse(refused.tree, fault, report, outcome);
  for (const auto& row : file->trees) {
    if (!wanted(row.tree)) continue;
    auto tree = tree_in_full(common.models, name, row, common.now);
    if (tree) {
      if (const auto booked = request.booked.find(row.tree); booked != request.booked.end() && booked->second.leave_by)
        tree->tree.leave_by = std::min(tree->tree.leave_by.value_or(*booked->second.leave_by), *booked->second.leave_by);
      trees.push_back(std::move(*tree));
    } else {
      refuse(row.tree, tree.error(), report, outcome);
    }
  }
  if (!request.only_tree.empty() && trees.empty() && report.refused.empty())
    outcome.refuse({"--tree", request.only_tree, fmt::format("expected an id of {}", name)});
  return trees;
}

// Index of the weather in the report, entered once however many trees it serves.
std::size_t enter(const weather::Forecast& forecast, double past_days, std::map<const weather::Forecast*, std::size_t>& entered,
                  DaysReport& report) {
  const auto known = entered.find(&forecast);
  if (known != entered.end()) return known->second;
  report.weather.push_back({forecast.source, forecast.credit, forecast.issued_at, forecast.place, forecast.members.size(), past_days});
  return entered.emplace(&forecast, report.weather.size() - 1).first->second;
}

// A tree's answers, and the forecast they come from.
struct Answered {
  TreeReport report;
  const weather::Forecast* forecast;
  double past_days;
  bool far;  // the weather is another place's
};

using WeatherAt = std::function<units::Result<SiteWeather>(const units::Site&)>;

// What everybody's answer comes from.
struct Given {
  WeatherAt weather_at;
  std::vector<feeds::GaugeDay> gauge;
};

// A crew that finds the flare dug and laid out.
days::Practice prepared(days::Practice practice) {
  practice.phases.dig_h = practice.phases.dig_h_per_m = practice.phases.layout_h = 0.0;
  return practice;
}

// Empty where the weather does not reach it.
std::optional<days::DayAnswer> booked_answer(const BookedDay& booked, const days::TreeCase& tree, const days::Outlook& outlook,
                                             uptake::Ensemble& ensemble, days::Settings settings, units::UtcTime now) {
  if (booked.prepared) settings.practice = prepared(settings.practice);
  std::optional<units::UtcTime> arrive;
  if (booked.arrive) arrive = tree.zone.to_utc(units::LocalTime{booked.day} + *booked.arrive);
  return days::answer_booked(tree, outlook, ensemble, settings, now, booked.day, arrive);
}

units::Result<Answered> answer(const Common& common, const DaysRequest& request, const Given& given, TreeInFull tree) {
  auto weather = given.weather_at(tree.row.site);
  if (!weather) return tl::make_unexpected(weather.error());
  lay_gauge_over(given.gauge, tree.row.site, tree.tree.zone, common.now, *weather);
  const Place place{tree.row.site, true};
  const auto hours = site_hours(*weather, place, tree.tree.zone, tree.ground, tree.leaves, common.now, request.weather.wind_height_m,
                                hours_behind_the_forecast);
  if (!hours) return tl::make_unexpected(hours.error());

  if (hours->outlook.begins(0) > common.now + std::chrono::hours{48})
    return units::fault("weather", fmt::format("begins {}", units::to_text(hours->outlook.begins(0))),
                        fmt::format("expected weather from {} on (--now)", units::to_text(common.now)));
  // Members stay whole in blocks of draws: every member has as many blocks as any other, in the search for the start too.
  const std::size_t round = units::Lanes::count * hours->outlook.courses.size();
  const std::size_t draws = (request.draws + round - 1) / round * round;
  uptake::Ensemble ensemble{tree.tree.subject, tree.tree.curve, uptake::sample_draws(tree.tree.subject.source, draws, common.seed), draws};
  const days::Settings settings{common.models.practice, std::max<std::size_t>(64, round), common.seed};
  TreeReport result{std::move(tree),
                    0,
                    hours->soil_story,
                    hours->rew_now,
                    hours->rew_sd_now,
                    hours->soil_alone,
                    weather->notes,
                    false,
                    {},
                    {},
                    {},
                    {{}, {}, units::ZoneOffsets::utc()}};
  result.forecast_old = std::chrono::duration<double, std::ratio<3600>>(common.now - hours->outlook.issued).count() >=
                        common.models.practice.decision.oldest_forecast_h;
  const auto booked = request.booked.find(result.tree.row.tree);
  if (booked != request.booked.end()) {
    auto found = booked_answer(booked->second, result.tree.tree, hours->outlook, ensemble, settings, common.now);
    if (!found)
      return units::fault("weather", units::to_text(booked->second.day),
                          "expected weather from four hours before the valves open to the end of that day");
    result.answers = {std::move(*found)};
    return Answered{std::move(result), weather->forecast, hours->past_days, weather->far};
  }
  result.answers = days::answer_days(result.tree.tree, hours->outlook, ensemble, settings, common.now);
  if (result.answers.empty()) {
    const auto& control = weather->control;
    return units::fault("weather", fmt::format("ends {}", units::to_text(control.label(control.hours() - 1))),
                        fmt::format("expected at least one full local day after {}", units::to_text(common.now)));
  }
  result.ranking = days::rank(result.answers, common.models.practice.decision);
  result.decider = {common.now, hours->outlook.issued, result.tree.tree.zone, hours->outlook.courses.size()};
  result.wait = days::worth_waiting(result.answers, common.models.practice, result.decider);
  for (const auto& note : hours->outlook.notes) result.notes.push_back(note);
  return Answered{std::move(result), weather->forecast, hours->past_days, weather->far};
}

}  // namespace

DaysReport days_report(const Common& common, const DaysRequest& request, Outcome& outcome) {
  DaysReport report;
  report.made_at = common.now;
  const bool from_files = !request.weather.files.empty();
  const WeatherFiles files = read_weather_files(request.weather, common.now, outcome);
  if (from_files && files.forecasts.empty() && files.records.empty()) return report;
  Given given;
  if (request.rain) {
    auto gauge = read_gauge_file(*request.rain);
    if (!gauge) {
      outcome.refuse(gauge.error());
      return report;
    }
    given.gauge = std::move(*gauge);
  }
  const auto list = read_tree_list(common, request.trees, request.only_tree, outcome);
  if (!list) return report;
  std::vector<TreeInFull> trees = trees_of(common, request, *list, report, outcome);
  std::optional<OfficeSites> office;
  if (!from_files && !trees.empty()) {
    std::vector<units::Site> wanted;
    for (const TreeInFull& tree : trees) wanted.push_back(tree.row.site);
    office = office_of_list(common, request.office, *list, wanted, outcome);
    if (!office) return report;
  }
  given.weather_at = [&](const units::Site& site) { return office ? office->at(site) : weather_for(files, site); };
  std::vector<std::optional<units::Result<Answered>>> all(trees.size());
  each_in_parallel(trees.size(), common.threads, [&](std::size_t i) { all[i] = answer(common, request, given, trees[i]); });

  std::map<const weather::Forecast*, std::size_t> entered;
  for (std::size_t i = 0; i < trees.size(); ++i) {
    const std::string& id = trees[i].row.tree;
    if (!*all[i]) {
      if (const auto booked = request.booked.find(id); booked != request.booked.end() && !booked->second.needed) continue;
      refuse(id, all[i]->error(), report, outcome);
      if (office && !office->at(trees[i].row.site)) outcome.exit = Exit::service_failed;
      continue;
    }
    Answered& answered = **all[i];
    if (answered.far) outcome.warn(fmt::format("{}: {}", id, answered.report.notes.front()));
    answered.report.weather = enter(*answered.forecast, answered.past_days, entered, report);
    report.trees.push_back(std::move(answered.report));
  }
  return report;
}

}  // namespace app
