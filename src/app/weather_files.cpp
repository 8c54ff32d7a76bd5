#include "app/weather_files.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>

#include "app/files.h"
#include "feeds/read.h"
#include "units/us_customary.h"
#include "weather/gaps.h"
#include "weather/history.h"
#include "weather/nearest.h"

namespace app {
namespace {

std::string gap_note(const weather::Gap& gap) {
  return fmt::format("{} is missing for {} h from {}", weather::traits(gap.variable).name, gap.hours.count(), units::to_text(gap.from));
}

// Only temperature, humidity and rain matter enough to be told; a hole in gusts is seen in the answer itself.
bool worth_telling(const weather::Gap& gap) {
  return gap.variable == weather::Variable::temperature || gap.variable == weather::Variable::rain;
}

}  // namespace

WeatherFiles read_weather_files(const WeatherRequest& request, units::UtcTime now, Outcome& outcome) {
  WeatherFiles files;
  feeds::ReadOptions options{now, request.labels_start_hour};
  if (request.latitude_deg && request.longitude_deg)
    options.place = units::Site{units::Degrees{*request.latitude_deg}, units::Degrees{*request.longitude_deg}, units::Metres{0.0}};
  if (request.elevation_m) options.elevation = units::Metres{*request.elevation_m};
  for (const auto& path : request.files) {
    const auto content = read_file(path);
    if (!content) {
      outcome.refuse(content.error());
      continue;
    }
    auto read = feeds::read_weather(path.filename().string(), *content, options);
    if (!read) {
      outcome.refuse(read.error());
      continue;
    }
    for (auto& forecast : *read) {
      for (const auto& warning : forecast.warnings) outcome.warn(warning);
      (weather::is_record(forecast, now) ? files.records : files.forecasts).push_back(std::move(forecast));
    }
  }
  return files;
}

units::Result<SiteWeather> weather_for(const WeatherFiles& files, const units::Site& site) {
  const auto nearest = weather::nearest(files.forecasts, site);
  if (!nearest) {
    if (files.records.empty()) return units::fault("weather", "", "expected a weather file");
    const auto& record = files.records.front().control;
    return units::fault("weather", fmt::format("ends {}", units::to_text(record.label(record.hours() - 1))),
                        "expected a forecast: at least one full local day ahead");
  }
  SiteWeather found;
  found.forecast = &files.forecasts[nearest->index];
  found.control = found.forecast->control;
  found.members = found.forecast->members;
  found.far = nearest->distance && *nearest->distance > weather::far_from_site;
  if (found.far)
    found.notes.push_back(
        fmt::format("the nearest weather is {:.0f} km away; western longitudes are negative", nearest->distance->value / 1000.0));
  if (const auto record = weather::nearest(files.records, site);
      record && record->distance.value_or(units::Metres{0.0}) <= weather::far_from_site) {
    const weather::Series& past = files.records[record->index].control;
    found.control = weather::with_record(found.control, past);
    for (auto& member : found.members) member = weather::with_record(member, past);
  }
  for (const auto& gap : weather::bridge_gaps(found.control))
    if (worth_telling(gap)) found.notes.push_back(gap_note(gap));
  for (auto& member : found.members) weather::bridge_gaps(member);
  return found;
}

units::Result<Place> place_of(const WeatherRequest& request, const weather::Forecast& forecast, Outcome& outcome) {
  const bool own = request.latitude_deg && request.longitude_deg;
  if (!own && !forecast.place) return units::fault("--lat, --lon", "", "expected a place: the weather file states none");
  Place place;
  if (forecast.place) place = {*forecast.place, forecast.elevation_known};
  if (own) {
    place.site.latitude = units::Degrees{*request.latitude_deg};
    place.site.longitude = units::Degrees{*request.longitude_deg};
    if (forecast.place && units::distance(place.site, *forecast.place) > weather::far_from_site)
      outcome.warn(
          fmt::format("the weather file is for a place {:.0f} km away", units::distance(place.site, *forecast.place).value / 1000.0));
  }
  if (request.elevation_m) {
    place.site.elevation = units::Metres{*request.elevation_m};
    place.elevation_known = true;
  }
  return place;
}

}  // namespace app
