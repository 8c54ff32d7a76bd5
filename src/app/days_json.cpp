#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "app/csv.h"
#include "app/days_command.h"
#include "app/json_parts.h"
#include "app/words.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;

Json site(const std::optional<units::Site>& place) {
  if (!place) return nullptr;
  return {{"lat", place->latitude.value}, {"lon", place->longitude.value}, {"elevation_m", place->elevation.value}};
}

Json weather_json(const WeatherUsed& weather, units::UtcTime made_at) {
  Json json;
  json["source"] = weather.source;
  json["credit"] = weather.credit;
  json["issued_at"] = weather.issued_at ? Json(units::to_text(*weather.issued_at)) : Json(nullptr);
  json["age_h"] =
      weather.issued_at ? Json(std::chrono::duration<double, std::ratio<3600>>(made_at - *weather.issued_at).count()) : Json(nullptr);
  json["members"] = weather.members;
  json["past_days"] = weather.past_days;
  json["site"] = site(weather.place);
  return json;
}

Json conditions_json(const days::Conditions& c) {
  return {{"rew", c.rew},
          {"vpd_kpa_max", c.vpd_kpa_max},
          {"cloud_pct_mean", number_or_null(c.cloud_pct_mean)},
          {"rain_7d_mm", c.rain_7d_mm},
          {"rain_today_mm", c.rain_today_mm},
          {"wet_leaf_h", c.wet_leaf_h},
          {"temp_max_c", c.temp_max_c},
          {"gust_max_m_s", number_or_null(c.gust_max_m_s)}};
}

Json day_json(const days::DayAnswer& day, const days::Ranked& ranked, const days::TreeCase& tree, const days::Practice& practice) {
  const auto local = [&](units::UtcTime t) { return units::to_text(tree.zone.to_local(t)); };
  const auto local_or_null = [&](const std::optional<units::UtcTime>& t) { return t ? Json(local(*t)) : Json(nullptr); };
  Json json;
  json["date"] = units::to_text(day.date);
  json["rank"] = ranked.rank;
  json["tied"] = ranked.tied;
  json["verdict"] = words::verdict_key(day.verdict);
  json["start_local"] = local(day.arrive);
  json["uptake_h"] = quantiles_json(day.uptake_h);
  json["on_site_h"] = quantiles_json(day.on_site_h);
  json["valves_open_local"] = local(day.valves_open);
  json["valves_shut_by_local"] = local(day.valves_shut_by);
  json["off_site_by_local"] = local(day.off_site_by);
  json["off_site_local"] = {{"p50", local_or_null(day.off_site_p50)}, {"p90", local_or_null(day.off_site_p90)}};
  json["peak_rate_l_h"] = quantiles_json(day.peak_rate_l_h);
  json["rate_l_h_by_half_hour"] = day.rate_l_h;
  json["chance_to_finish"] = day.chance_to_finish;
  json["chance_all_clear"] = day.chance_all_clear;
  json["mc_error"] = day.mc_error;
  json["expected_cost_h"] = day.expected_cost_h;
  json["sure_tanks"] = day.sure_tanks;
  json["conditions"] = conditions_json(day.conditions);
  json["rain_forecast_known"] = day.rain_known;
  json["reasons"] = Json::array();
  for (const auto& reason : day.why.by_factor)
    json["reasons"].push_back(
        {{"factor", words::factor_key(reason.factor)}, {"hours", reason.hours}, {"text", words::reason(reason, day, practice.good_day)}});
  json["advice"] = Json::array();
  for (const auto& advice : day.advice)
    json["advice"].push_back({{"code", words::advice_key(advice.code)},
                              {"hours", advice.hours},
                              {"chance", advice.chance},
                              {"chance_otherwise", advice.chance_otherwise},
                              {"text", words::advice(advice, practice.advice, tree.zone, UnitSystem::si)}});
  json["holds"] = Json::array();
  for (const auto& hold : day.holds)
    json["holds"].push_back({{"code", words::hold_key(hold.code)},
                             {"from_local", local(hold.from)},
                             {"until_local", local(hold.until)},
                             {"text", words::hold(hold, UnitSystem::si)}});
  json["watches"] = Json::array();
  for (const auto& alert : day.watches)
    json["watches"].push_back({{"from_local", local(alert.from)}, {"until_local", local(alert.until)}, {"text", words::watch(alert)}});
  return json;
}

Json tree_json(const TreeReport& report, const days::Practice& practice) {
  const auto& row = report.tree.row;
  Json json;
  json["tree"] = row.tree;
  json["name"] = row.name;
  json["species"] = report.tree.species.latin;
  json["dbh_cm"] = row.dbh.value;
  json["dose_l"] = report.tree.tree.subject.dose.value;
  json["dose_from"] = report.tree.dose_from;
  json["flush_l"] = report.tree.tree.subject.flush.value;
  json["ports"] = days::port_count(report.tree.tree);
  json["pressure_kpa"] = report.tree.tree.subject.pressure.value * 1000.0;
  json["soil"] = report.tree.texture.key;
  json["weather"] = report.weather;
  json["soil_story"] = report.soil_story;
  json["rew_now"] = report.rew_now;
  json["rew_sd_now"] = report.rew_sd_now;
  json["soil_model_alone"] = nullptr;
  if (report.soil_alone)
    json["soil_model_alone"] = {
        {"rew", report.soil_alone->rew}, {"rew_sd", report.soil_alone->rew_sd}, {"corrected_by", report.soil_alone->corrected_by}};
  json["notes"] = report.notes;
  json["wait"] = nullptr;
  if (report.wait)
    json["wait"] = {{"decide_by_local", units::to_text(report.tree.tree.zone.to_local(report.wait->decide_by))},
                    {"gain_h", report.wait->gain_h},
                    {"text", words::wait(*report.wait, report.tree.tree.zone)}};
  json["days"] = Json::array();
  for (const auto& ranked : report.ranking)
    json["days"].push_back(day_json(report.answers[ranked.day], ranked, report.tree.tree, practice));
  return json;
}

}  // namespace

std::string days_json(const DaysReport& report, const params::Models& models) {
  Json json;
  json["made_at"] = units::to_text(report.made_at);
  json["weather"] = Json::array();
  for (const auto& weather : report.weather) json["weather"].push_back(weather_json(weather, report.made_at));
  json["trees"] = Json::array();
  for (const auto& tree : report.trees) json["trees"].push_back(tree_json(tree, models.practice));
  for (const auto& refused : report.refused) json["trees"].push_back({{"tree", refused.tree}, {"error", refused.why}});
  return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string days_csv(const DaysReport& report) {
  std::string table =
      "tree,date,rank,verdict,start_local,valves_open_local,valves_shut_by_local,uptake_h_p10,uptake_h_p50,uptake_h_p90,on_site_h_p50,"
      "on_site_h_p90,chance_to_finish,chance_all_clear,expected_cost_h\n";
  for (const auto& tree : report.trees)
    for (const auto& ranked : tree.ranking) {
      const auto& day = tree.answers[ranked.day];
      const auto local = [&](units::UtcTime t) { return units::to_text(tree.tree.tree.zone.to_local(t)); };
      table += fmt::format("{},{},{},{},{},{},{},{},{},{},{},{},{},{},{}\n", csv::text(tree.tree.row.tree), units::to_text(day.date),
                           ranked.rank, words::verdict_key(day.verdict), local(day.arrive), local(day.valves_open),
                           local(day.valves_shut_by), csv::number(day.uptake_h.p10), csv::number(day.uptake_h.p50),
                           csv::number(day.uptake_h.p90), csv::number(day.on_site_h.p50), csv::number(day.on_site_h.p90),
                           day.chance_to_finish, day.chance_all_clear, day.expected_cost_h);
    }
  return table;
}

}  // namespace app
