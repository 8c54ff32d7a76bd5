#include "app/air_command.h"

#include <fmt/format.h>

#include <array>
#include <nlohmann/json.hpp>
#include <utility>

#include "air/hours.h"
#include "air/state.h"
#include "app/csv.h"
#include "app/option_range.h"
#include "app/weather_files.h"
#include "units/us_customary.h"
#include "weather/nearest.h"

namespace app {
namespace {

using Named = std::pair<const char*, std::optional<double>>;

std::array<Named, 9> named(const air::State& s) {
  return {{{"temp_c", s.temp_c},
           {"rh_pct", s.rh_pct},
           {"pressure_kpa", s.pressure_kpa},
           {"es_kpa", s.es_kpa},
           {"ea_kpa", s.ea_kpa},
           {"vpd_kpa", s.vpd_kpa},
           {"dew_point_c", s.dew_point_c},
           {"slope_kpa_per_c", s.slope_kpa_per_c},
           {"gamma_kpa_per_c", s.gamma_kpa_per_c}}};
}

std::array<Named, 9> named(const air::AirHours& air, std::size_t hour) {
  return {{{"temp_c", air.temp_c.at(hour)},
           {"rh_pct", air.rh_pct.at(hour)},
           {"vpd_kpa", air.vpd_kpa.at(hour)},
           {"shortwave_w_m2", air.shortwave_w_m2.at(hour)},
           {"clear_sky_w_m2", air.clear_sky_w_m2.at(hour)},
           {"net_radiation_mj_m2_h", air.net_radiation_mj_m2_h.at(hour)},
           {"et0_fao56_mm_h", air.et0_fao56_mm_h.at(hour)},
           {"et0_asce_short_mm_h", air.et0_asce_short_mm_h.at(hour)},
           {"et0_asce_tall_mm_h", air.et0_asce_tall_mm_h.at(hour)}}};
}

nlohmann::ordered_json json(const std::array<Named, 9>& values) {
  nlohmann::ordered_json object;
  for (const auto& [name, value] : values) object[name] = value ? nlohmann::ordered_json(*value) : nlohmann::ordered_json(nullptr);
  return object;
}

std::string names_csv(const std::array<Named, 9>& values) {
  std::string line;
  for (const auto& [name, value] : values) line += fmt::format("{},", name);
  line.pop_back();
  return line;
}

std::string values_csv(const std::array<Named, 9>& values) {
  std::string line;
  for (const auto& [name, value] : values) {
    line += csv::number(value);
    line += ',';
  }
  line.pop_back();
  return line;
}

std::string text(const air::State& s, UnitSystem units) {
  const bool us = units == UnitSystem::us;
  const auto temperature = [us](double celsius) { return us ? units::us::fahrenheit(celsius) : celsius; };
  const char* degree = us ? "F" : "C";
  std::string lines;
  const auto add = [&lines](const char* what, double value, int decimals, const char* unit) {
    lines += fmt::format("{:<26}{:>{}.{}f}{:{}}{}\n", what, value, 6 + decimals, decimals, "", 5 - decimals, unit);
  };
  add("temperature", temperature(s.temp_c), 1, degree);
  add("relative humidity", s.rh_pct, 1, "%");
  add("air pressure", s.pressure_kpa, 1, "kPa");
  add("saturation pressure", s.es_kpa, 3, "kPa");
  add("vapour pressure", s.ea_kpa, 3, "kPa");
  add("vapour pressure deficit", s.vpd_kpa, 3, "kPa");
  if (s.dew_point_c) add("dew point", temperature(*s.dew_point_c), 1, degree);
  add("slope of saturation", s.slope_kpa_per_c, 4, "kPa/C");
  add("psychrometric constant", s.gamma_kpa_per_c, 4, "kPa/C");
  return lines;
}

Outcome one_state(const Common& common, double temp_c, double rh_pct, double pressure_kpa) {
  Outcome outcome;
  const auto check = [&outcome](const units::Result<void>& ok) {
    if (!ok) outcome.refuse(ok.error());
  };
  check(within("--temp-c", temp_c, -60.0, 60.0, "a temperature in C"));
  if (!(rh_pct > 0.0 && rh_pct <= 100.0))
    outcome.refuse({"--rh", fmt::format("{}", rh_pct), "expected a relative humidity in % above 0, at most 100"});
  check(within("--pressure-kpa", pressure_kpa, 40.0, 110.0, "an air pressure in kPa"));
  if (outcome.exit != Exit::done) return outcome;

  const air::State state = air::one_state(units::Celsius{temp_c}, rh_pct, units::Kilopascals{pressure_kpa});
  const auto values = named(state);
  switch (common.format) {
    case Format::json:
      outcome.out = json(values).dump(2) + "\n";
      break;
    case Format::csv:
      outcome.out = names_csv(values) + "\n" + values_csv(values) + "\n";
      break;
    case Format::text:
      outcome.out = text(state, common.units);
  }
  return outcome;
}

// The forecast or record that is shown: the nearest to the place asked for, else the file's first.
const weather::Forecast& chosen(const WeatherRequest& request, const std::vector<weather::Forecast>& all, Outcome& outcome) {
  if (request.latitude_deg && request.longitude_deg) {
    const units::Site site{units::Degrees{*request.latitude_deg}, units::Degrees{*request.longitude_deg}, units::Metres{0.0}};
    return all[weather::nearest(all, site)->index];
  }
  if (all.size() > 1)
    outcome.warn(fmt::format("{} places in the weather file: the first is shown, --lat and --lon choose another", all.size()));
  return all.front();
}

Outcome by_hour(const Common& common, const WeatherRequest& request) {
  Outcome outcome;
  WeatherFiles files = read_weather_files(request, common.now, outcome);
  std::vector<weather::Forecast> all = std::move(files.forecasts);
  for (auto& record : files.records) all.push_back(std::move(record));
  if (all.empty()) return outcome;
  const weather::Forecast& forecast = chosen(request, all, outcome);
  const auto place = place_of(request, forecast, outcome);
  if (!place) {
    outcome.refuse(place.error());
    return outcome;
  }
  air::HoursOptions options;
  options.elevation_known = place->elevation_known;
  if (request.wind_height_m) options.wind_height = units::Metres{*request.wind_height_m};
  if (!place->elevation_known) outcome.warn("elevation unknown: taken as 300 m, --elevation-m sets it");

  const weather::Series& series = forecast.control;
  const air::AirHours air = air::complete(series, place->site, options);
  auto rows = nlohmann::ordered_json::array();
  outcome.out = common.format == Format::json ? "" : "time_utc," + names_csv(named(air, 0)) + "\n";
  for (std::size_t hour = 0; hour < air.hours(); ++hour) {
    if (!series.any(hour)) continue;
    const std::string label = units::to_text(units::UtcTime{air.label(hour)});
    if (common.format == Format::json) {
      nlohmann::ordered_json row{{"time_utc", label}};
      row.update(json(named(air, hour)));
      rows.push_back(std::move(row));
    } else {
      outcome.out += label + "," + values_csv(named(air, hour)) + "\n";
    }
  }
  if (common.format == Format::json) outcome.out = nlohmann::ordered_json{{"hours", std::move(rows)}}.dump(2) + "\n";
  return outcome;
}

}  // namespace

Outcome air_command(const Common& common, const AirRequest& request) {
  const bool state = request.temp_c && request.rh_pct, partly = request.temp_c || request.rh_pct;
  const bool file = !request.weather.files.empty();
  if (file && !partly) return by_hour(common, request.weather);
  if (state && !file) return one_state(common, *request.temp_c, *request.rh_pct, request.pressure_kpa);
  return {Exit::wrong_use, "", {"air: expected either --temp-c and --rh, or --weather FILE"}};
}

}  // namespace app
