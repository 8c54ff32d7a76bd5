#include "app/weather_command.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "air/humidity.h"
#include "app/csv.h"
#include "app/office_sites.h"
#include "app/tree_list.h"
#include "app/words.h"
#include "app/wrap.h"
#include "feeds/time_zone.h"
#include "feeds/trees_csv.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;
using net::Came;
using sources::CellWeather;

struct Listed {
  std::string name;
  std::vector<feeds::TreeRow> rows;
  std::vector<sources::PlacedSite> sites;
};

Listed sites_of(const Common& common, const std::filesystem::path& trees, const std::string& only_tree, Outcome& outcome) {
  Listed listed;
  auto list = read_tree_list(common, trees, only_tree, outcome);
  if (!list) return listed;
  for (const auto& refused : list->file.refused)
    for (const auto& fault : refused.faults) outcome.refuse(fault);
  listed.name = list->name;
  listed.rows = std::move(list->file.trees);
  listed.sites = std::move(list->sites);
  return listed;
}

const char* key(Came came) {
  switch (came) {
    case Came::fetched:
      return "new";
    case Came::unchanged:
      return "unchanged";
    case Came::kept:
      return "fresh";
    case Came::stale:
      return "stale";
    case Came::failed:
      break;
  }
  return "failed";
}

double hours_old(units::UtcTime then, units::UtcTime now) { return std::chrono::duration<double, std::ratio<3600>>(now - then).count(); }

std::string age(double hours) {
  return hours < 1.5 ? fmt::format("{:.0f} min", std::max(0.0, 60.0 * hours)) : fmt::format("{:.0f} h", hours);
}

double past_days(const CellWeather& cell, units::UtcTime now) {
  const auto& kept = cell.kept;
  for (std::size_t hour = 0; hour < kept.hours() && kept.label(hour) <= now; ++hour)
    if (kept.any(hour)) return hours_old(kept.label(hour), now) / 24.0;
  return 0.0;
}

std::string name_of(const std::string& service) { return std::string{sources::terms_of(service).name}; }

// The whole refresh, before it is put into words.
class Refreshed {
 public:
  Refreshed(const Common& common, const OfficeWeather& office, const OfficeSites& ready, const Listed& listed)
      : common_(common), office_(office), ready_(ready), listed_(listed) {}

  [[nodiscard]] bool usable(const CellWeather& cell) const { return ready_.at(cell.cell.site()).has_value(); }

  [[nodiscard]] std::string text() const {
    std::map<Came, int> counts;
    for (const auto& cell : office_.cells)
      for (const auto& told : cell.told) ++counts[told.came];
    std::string out =
        fmt::format("{} site{} in {} place{}: {} new, {} unchanged, {} fresh already, {} stale, {} failed\n", listed_.rows.size(),
                    listed_.rows.size() == 1 ? "" : "s", office_.cells.size(), office_.cells.size() == 1 ? "" : "s", counts[Came::fetched],
                    counts[Came::unchanged], counts[Came::kept], counts[Came::stale], counts[Came::failed]);
    for (const std::string& service : office_.chosen.by_trust) out += service_line(service);
    if (!office_.cells.empty()) {
      std::vector<double> days;
      for (const auto& cell : office_.cells) days.push_back(past_days(cell, common_.now));
      const auto [least, most] = std::ranges::minmax(days);
      out += fmt::format("  past weather kept: {:.0f} to {:.0f} days\n", least, most);
    }
    for (const auto& cell : office_.cells)
      if (!usable(cell)) out += wrap(fmt::format("No usable weather for {}: {}.", cell.cell.cell.text(), fmt::join(ids(cell), ", ")), "  ");
    for (const auto& spent : office_.spent)
      out += fmt::format("  calls today: {}, {:.0f}{}\n", name_of(spent.service), spent.today,
                         spent.left_today ? fmt::format("; {:.0f} left of what it allows", *spent.left_today) : "");
    for (const std::string& service : office_.chosen.by_trust) {
      const auto& terms = sources::terms_of(service);
      out += wrap(fmt::format("{}: {}.{}{}", terms.name, terms.terms, terms.credit.empty() ? "" : " ", terms.credit), "  ");
    }
    return out;
  }

  [[nodiscard]] std::string json() const {
    Json all;
    all["made_at"] = units::to_text(common_.now);
    all["places"] = Json::array();
    for (const auto& cell : office_.cells) {
      Json place;
      place["place"] = {
          {"lat", cell.cell.cell.latitude_deg()}, {"lon", cell.cell.cell.longitude_deg()}, {"elevation_m", cell.cell.elevation.value}};
      place["trees"] = ids(cell);
      place["usable"] = usable(cell);
      place["past_days"] = past_days(cell, common_.now);
      place["services"] = Json::array();
      for (const auto& told : cell.told)
        place["services"].push_back({{"service", told.service},
                                     {"what", told.what},
                                     {"came", key(told.came)},
                                     {"fetched_at", told.came == Came::failed ? Json(nullptr) : Json(units::to_text(told.fetched_at))},
                                     {"age_h", told.came == Came::failed ? Json(nullptr) : Json(hours_old(told.fetched_at, common_.now))},
                                     {"failure", told.failure.empty() ? Json(nullptr) : Json(told.failure)}});
      all["places"].push_back(std::move(place));
    }
    all["calls"] = Json::array();
    for (const auto& spent : office_.spent)
      all["calls"].push_back(
          {{"service", spent.service}, {"today", spent.today}, {"left_today", spent.left_today ? Json(*spent.left_today) : Json(nullptr)}});
    all["terms"] = Json::array();
    for (const std::string& service : office_.chosen.by_trust) {
      const auto& terms = sources::terms_of(service);
      all["terms"].push_back({{"service", service}, {"name", terms.name}, {"terms", terms.terms}, {"credit", terms.credit}});
    }
    return all.dump(2) + "\n";
  }

 private:
  [[nodiscard]] std::vector<std::string> ids(const CellWeather& cell) const {
    std::vector<std::string> all;
    for (const auto& row : listed_.rows)
      if (sources::cell_of(row.site) == cell.cell.cell) all.push_back(row.tree);
    return all;
  }

  // A service that covers none of the places is not heard of.
  [[nodiscard]] std::string service_line(const std::string& service) const {
    std::size_t served = 0;
    double oldest_h = 0.0;
    for (const auto& cell : office_.cells)
      for (const auto& told : cell.told)
        if (told.service == service && told.what == "forecast" && told.came != Came::failed) {
          ++served;
          oldest_h = std::max(oldest_h, hours_old(told.fetched_at, common_.now));
        }
    if (served == 0) return fmt::format("  {:<28} no forecast for any place\n", name_of(service));
    return fmt::format("  {:<28} forecast for {} of {} places, the oldest {} old\n", name_of(service), served, office_.cells.size(),
                       age(oldest_h));
  }

  const Common& common_;
  const OfficeWeather& office_;
  const OfficeSites& ready_;
  const Listed& listed_;
};

// The coming days of one site, as a person would read them.
class Shown {
 public:
  Shown(const Common& common, const CellWeather& cell, const OfficeSites& ready, const feeds::TreeRow& row, const units::ZoneOffsets& zone,
        const SiteWeather& weather)
      : common_(common), cell_(cell), ready_(ready), row_(row), zone_(zone), weather_(weather), days_(days()) {}

  [[nodiscard]] std::string text() const {
    std::string out = fmt::format("{} at {}\n", row_.name.empty() ? row_.tree : row_.name, cell_.cell.cell.text());
    for (const auto& told : cell_.told) {
      if (told.came == Came::failed) {
        out += wrap(fmt::format("{}, {}: nothing kept", name_of(told.service), told.what), "  ");
        continue;
      }
      out +=
          wrap(fmt::format("{}, {}: asked {} ago", name_of(told.service), told.what, age(hours_old(told.fetched_at, common_.now))), "  ");
    }
    for (const auto& forecast : cell_.forecasts)
      out += wrap(fmt::format("{}: issued {} ago{}{}", forecast.source, age(hours_old(*forecast.issued_at, common_.now)),
                              forecast.credit.empty() ? "" : ". ", forecast.credit),
                  "  ");
    out += wrap(fmt::format("Past {:.0f} days of rain by hours: {}.", past_days(cell_, common_.now), fmt::join(past_kinds(), ", ")), "  ");
    for (const auto& alert : cell_.alerts)
      out += wrap(fmt::format("{}{}: {} {} to {} {}", alert.watch ? "Watch: " : "", alert.event, words::day(zone_.day_of(alert.from)),
                              words::clock(zone_.to_local(alert.from)), words::day(zone_.day_of(alert.until)),
                              words::clock(zone_.to_local(alert.until))),
                  "  ");
    for (const auto& note : weather_.notes) out += wrap("Note: " + note + ".", "  ");
    out += fmt::format("\n    {:<11} {:>9} {:>12} {:>6} {:>8} {:>7} {:>8}  {}\n", "day", "low-high", "air at best", "sky", "rain", "chance",
                       "gusts", "by");
    for (const Day& d : days_) out += "    " + line(d) + "\n";
    return out;
  }

  [[nodiscard]] std::string json() const {
    Json all;
    all["tree"] = row_.tree;
    all["made_at"] = units::to_text(common_.now);
    all["place"] = {
        {"lat", cell_.cell.cell.latitude_deg()}, {"lon", cell_.cell.cell.longitude_deg()}, {"elevation_m", cell_.cell.elevation.value}};
    all["forecasts"] = Json::array();
    for (const auto& forecast : cell_.forecasts)
      all["forecasts"].push_back({{"source", forecast.source},
                                  {"credit", forecast.credit},
                                  {"issued_at", units::to_text(*forecast.issued_at)},
                                  {"age_h", hours_old(*forecast.issued_at, common_.now)}});
    all["past_days"] = past_days(cell_, common_.now);
    all["past_rain_h"] = Json::object();
    for (const auto& [kind, hours] : past_hours()) all["past_rain_h"][kind] = hours;
    all["alerts"] = Json::array();
    for (const auto& alert : cell_.alerts)
      all["alerts"].push_back({{"event", alert.event},
                               {"watch", alert.watch},
                               {"from_local", units::to_text(zone_.to_local(alert.from))},
                               {"until_local", units::to_text(zone_.to_local(alert.until))}});
    all["days"] = Json::array();
    const auto known = [](const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); };
    for (const Day& d : days_)
      all["days"].push_back({{"date", units::to_text(d.day)},
                             {"hours", d.hours},
                             {"temp_min_c", known(d.low_c)},
                             {"temp_max_c", known(d.high_c)},
                             {"rh_at_max_pct", known(d.rh_pct)},
                             {"cloud_pct_mean", known(d.cloud_pct)},
                             {"rain_mm", known(d.rain_mm)},
                             {"rain_chance_pct_max", known(d.chance_pct)},
                             {"gust_max_m_s", known(d.gust_m_s)},
                             {"by", d.by}});
    return all.dump(2) + "\n";
  }

 private:
  struct Day {
    units::LocalDay day;
    int hours = 0;
    std::optional<double> low_c, high_c, rh_pct, cloud_pct, rain_mm, chance_pct, gust_m_s;
    std::string by;
  };

  [[nodiscard]] std::vector<Day> days() const {
    using weather::Variable;
    const weather::Series& s = weather_.control;
    std::map<units::LocalDay, Day> all;
    std::map<units::LocalDay, std::pair<double, int>> cloud;
    for (std::size_t hour = 0; hour < s.hours(); ++hour) {
      if (s.label(hour) <= common_.now || !s[Variable::temperature].has(hour)) continue;
      const units::LocalDay day = zone_.day_of(units::UtcTime{s.label(hour)} - std::chrono::seconds{1});
      Day& d = all[day];
      d.day = day;
      ++d.hours;
      const auto larger = [](std::optional<double>& most, const std::optional<double>& value) {
        if (value && (!most || *value > *most)) most = value;
      };
      if (const auto temp = s.at(Variable::temperature, hour)) {
        if (!d.low_c || *temp < *d.low_c) d.low_c = temp;
        if (!d.high_c || *temp > *d.high_c) {
          d.high_c = temp;
          d.rh_pct = humidity(s, hour);
        }
      }
      if (const auto mm = s.at(Variable::rain, hour)) d.rain_mm = d.rain_mm.value_or(0.0) + *mm;
      larger(d.chance_pct, s.at(Variable::rain_chance, hour));
      larger(d.gust_m_s, s.at(Variable::gust, hour));
      if (const auto pct = s.at(Variable::cloud, hour)) {
        cloud[day].first += *pct;
        ++cloud[day].second;
      }
      const std::string by = ready_.speaker(row_.site, s.label(hour));
      if (!by.empty() && d.by.find(by) == std::string::npos) d.by += (d.by.empty() ? "" : ", ") + by;
    }
    std::vector<Day> list;
    for (auto& [day, d] : all) {
      if (const auto [sum, count] = cloud[day]; count > 0) d.cloud_pct = sum / count;
      list.push_back(std::move(d));
    }
    return list;
  }

  [[nodiscard]] static std::optional<double> humidity(const weather::Series& s, std::size_t hour) {
    if (const auto rh = s.at(weather::Variable::relative_humidity, hour)) return rh;
    const auto temp = s.at(weather::Variable::temperature, hour), dew = s.at(weather::Variable::dew_point, hour);
    if (!temp || !dew) return std::nullopt;
    return 100.0 * air::saturation_pressure(units::Celsius{*dew}).value / air::saturation_pressure(units::Celsius{*temp}).value;
  }

  [[nodiscard]] std::string line(const Day& d) const {
    const auto u = common_.units;
    const auto or_dash = [](bool known, const std::string& text) { return known ? text : std::string{"-"}; };
    const std::string low = d.low_c ? words::temperature(*d.low_c, u) : "", high = d.high_c ? words::temperature(*d.high_c, u) : "";
    return fmt::format("{:<11} {:>9} {:>12} {:>6} {:>8} {:>7} {:>8}  {}", words::day(d.day), low.substr(0, low.find(' ')) + "-" + high,
                       or_dash(d.rh_pct.has_value(), fmt::format("{:.0f} % humid", d.rh_pct.value_or(0.0))),
                       or_dash(d.cloud_pct.has_value(), fmt::format("{:.0f} %", d.cloud_pct.value_or(0.0))),
                       or_dash(d.rain_mm.has_value(), words::depth(d.rain_mm.value_or(0.0), u)),
                       or_dash(d.chance_pct.has_value(), fmt::format("{:.0f} %", d.chance_pct.value_or(0.0))),
                       or_dash(d.gust_m_s.has_value(), words::speed(d.gust_m_s.value_or(0.0), u)), d.by);
  }

  // Hours of past rain by what is known of them.
  [[nodiscard]] std::vector<std::pair<std::string, int>> past_hours() const {
    using weather::Provenance;
    const std::vector<std::pair<Provenance, std::string>> kinds{{Provenance::observed, "observed"}, {Provenance::analysed, "analysed"},
                                                                {Provenance::derived, "derived"},   {Provenance::filled, "filled"},
                                                                {Provenance::forecast, "forecast"}, {Provenance::missing, "missing"}};
    const weather::Series& s = weather_.control;
    std::map<Provenance, int> counts;
    for (std::size_t hour = 0; hour < s.hours() && s.label(hour) <= common_.now; ++hour)
      ++counts[s[weather::Variable::rain].provenance(hour)];
    std::vector<std::pair<std::string, int>> all;
    for (const auto& [kind, name] : kinds)
      if (counts[kind] > 0) all.emplace_back(name, counts[kind]);
    return all;
  }
  [[nodiscard]] std::vector<std::string> past_kinds() const {
    std::vector<std::string> all;
    for (const auto& [kind, hours] : past_hours()) all.push_back(fmt::format("{} {}", hours, kind));
    if (all.empty()) all.emplace_back("none");
    return all;
  }

  const Common& common_;
  const CellWeather& cell_;
  const OfficeSites& ready_;
  const feeds::TreeRow& row_;
  const units::ZoneOffsets& zone_;
  const SiteWeather& weather_;
  std::vector<Day> days_;
};

std::chrono::hours oldest(const Common& common) {
  return std::chrono::hours{static_cast<long>(common.models.practice.decision.oldest_forecast_h)};
}

}  // namespace

Outcome weather_command(const Common& common, const WeatherRefreshRequest& request) {
  Outcome outcome;
  const Listed listed = sites_of(common, request.trees, "", outcome);
  if (listed.rows.empty()) return outcome;
  const auto office = office_weather(common, request.office, listed.sites, outcome);
  if (!office) return outcome;
  tell_troubles(*office, outcome);
  const OfficeSites ready{*office, common.now, oldest(common)};
  const Refreshed refreshed{common, *office, ready, listed};
  outcome.out = common.format == Format::json ? refreshed.json() : refreshed.text();
  for (const auto& cell : office->cells)
    if (!refreshed.usable(cell)) outcome.exit = Exit::service_failed;
  return outcome;
}

Outcome weather_show_command(const Common& common, const WeatherShowRequest& request) {
  Outcome outcome;
  Listed listed = sites_of(common, request.trees, request.tree, outcome);
  const auto row = std::ranges::find(listed.rows, request.tree, &feeds::TreeRow::tree);
  if (row == listed.rows.end()) {
    outcome.refuse({"weather show", request.tree, "expected an id of " + listed.name});
    return outcome;
  }
  const auto zone = feeds::load_zone(row->zone, common.now - std::chrono::days{200}, common.now + std::chrono::days{200});
  if (!zone) return refused(zone.error());
  OfficeRequest quiet = request.office;
  quiet.offline = true;
  const auto office = office_weather(common, quiet, listed.sites, outcome);  // a cell is made of all its trees
  if (!office) return outcome;
  const OfficeSites ready{*office, common.now, oldest(common)};
  auto weather = ready.at(row->site);
  if (!weather) {
    outcome.refuse({"weather show", request.tree, "expected weather in the cache: run `sapdraw weather` first"});
    outcome.exit = Exit::service_failed;
    return outcome;
  }
  std::erase_if(weather->notes, [](const std::string& note) { return note.find("was not asked") != std::string::npos; });
  const Shown shown{common, *office->of(row->site), ready, *row, *zone, *weather};
  outcome.out = common.format == Format::json ? shown.json() : shown.text();
  return outcome;
}

Outcome weather_find_command(const Common& common, const PlaceNameRequest& request) {
  Outcome outcome;
  const auto places = office_places(common, request.office, request.name, outcome);
  if (!places) return outcome;
  if (common.format == Format::json) {
    Json all = Json::array();
    for (const auto& place : *places)
      all.push_back({{"name", place.name},
                     {"region", place.admin1.value_or("")},
                     {"country", place.country.value_or("")},
                     {"lat", place.latitude.value},
                     {"lon", place.longitude.value},
                     {"elevation_m", place.elevation ? Json(place.elevation->value) : Json(nullptr)},
                     {"zone", place.zone.value_or("")}});
    outcome.out = all.dump(2) + "\n";
    return outcome;
  }
  for (const auto& place : *places)
    outcome.out +=
        fmt::format("{:<24} {:<20} {:>9.4f},{:>10.4f} {:>6} {}\n", place.name,
                    (place.admin1 ? *place.admin1 + ", " : "") + place.country.value_or(""), place.latitude.value, place.longitude.value,
                    place.elevation ? fmt::format("{:.0f} m", place.elevation->value) : "-", place.zone.value_or(""));
  outcome.out += places->empty() ? "No place of that name.\n" : std::string{sources::terms_of(settings::place_names).credit} + "\n";
  return outcome;
}

Outcome weather_past_command(const Common& common, const WeatherPastRequest& request) {
  Outcome outcome;
  const auto from = units::parse_day(request.from), until = units::parse_day(request.until);
  if (!from || !until || *until < *from || *until - *from > std::chrono::days{366})
    return refused({"--from, --to", request.from + " to " + request.until,
                    "expected two days, the second not before the first nor over a year after it"});
  const Listed listed = sites_of(common, request.trees, request.tree, outcome);
  const auto row = std::ranges::find(listed.rows, request.tree, &feeds::TreeRow::tree);
  if (row == listed.rows.end()) {
    outcome.refuse({"weather past", request.tree, "expected an id of " + listed.name});
    return outcome;
  }
  const auto past = office_past(common, request.office, {row->site, row->zone}, *from, *until, outcome);
  if (!past) return outcome;
  using weather::Variable;
  constexpr std::array columns{Variable::temperature, Variable::relative_humidity,
                               Variable::dew_point,   Variable::rain,
                               Variable::shortwave,   Variable::cloud,
                               Variable::wind,        Variable::gust,
                               Variable::pressure};
  outcome.out = fmt::format("# {}, {}\n# {}\ntime_utc", past->source, sources::cell_of(row->site).text(), past->credit);
  for (const Variable variable : columns) outcome.out += fmt::format(",{}", weather::traits(variable).name);
  outcome.out += "\n";
  for (std::size_t hour = 0; hour < past->control.hours(); ++hour) {
    outcome.out += units::to_text(units::UtcTime{past->control.label(hour)});
    for (const Variable variable : columns) outcome.out += "," + csv::number(past->control.at(variable, hour));
    outcome.out += "\n";
  }
  return outcome;
}

}  // namespace app
