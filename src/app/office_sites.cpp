#include "app/office_sites.h"

#include <fmt/format.h>

#include <algorithm>

#include "weather/blend.h"
#include "weather/gaps.h"
#include "weather/history.h"
#include "weather/keep.h"

namespace app {
namespace {

using sources::CellWeather;
using weather::Forecast;
using weather::Series;

// "2 h", "40 min".
std::string age(units::UtcTime then, units::UtcTime now) {
  const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(now - then).count();
  return minutes < 90 ? fmt::format("{} min", std::max<long>(minutes, 0)) : fmt::format("{:.0f} h", static_cast<double>(minutes) / 60.0);
}

std::vector<const Forecast*> usable(const CellWeather& cell, units::UtcTime now, std::chrono::hours limit) {
  std::vector<const Forecast*> all, young;
  for (const Forecast& forecast : cell.forecasts) {
    if (weather::is_record(forecast, now)) continue;  // an old reply whose hours have all passed
    all.push_back(&forecast);
    if (now - *forecast.issued_at <= limit) young.push_back(&forecast);
  }
  return young.empty() ? all : young;
}

void add_to(std::string& list, const std::string& text, const char* between) {
  if (!text.empty() && list.find(text) == std::string::npos) list += (list.empty() ? "" : between) + text;
}

std::vector<std::string> notes_of(const CellWeather& cell, units::UtcTime now) {
  std::vector<std::string> notes;
  for (const sources::Told& told : cell.told) {
    const bool forecast = told.what == "forecast" || told.what == "ensemble" || (told.what == "place" && told.came == net::Came::failed);
    if (!forecast) continue;
    const std::string name{sources::terms_of(told.service).name};
    const char* silence = told.failure.empty() ? "was not asked" : "does not answer";
    if (told.came == net::Came::stale)
      notes.push_back(fmt::format("{} {}: what it said {} ago serves", name, silence, age(told.fetched_at, now)));
    if (told.came == net::Came::failed) notes.push_back(fmt::format("{} {}, and nothing of it is kept", name, silence));
  }
  // Where the service that warns was asked at all: not in another country.
  const bool warned_about = std::ranges::any_of(cell.told, [](const sources::Told& told) {
    return told.what == "alerts" || (told.what == "place" && told.came == net::Came::failed);
  });
  if (warned_about && !cell.alerts_known)
    notes.emplace_back("warnings of the weather service are not known as of now: look before you leave");
  return notes;
}

}  // namespace

OfficeSites::OfficeSites(const OfficeWeather& office, units::UtcTime now, std::chrono::hours limit) {
  for (const CellWeather& cell : office.cells) {
    const auto forecasts = usable(cell, now, limit);
    // Members count while they are young; where nothing else looks ahead, older ones too.
    const bool members =
        cell.ensemble && !weather::is_record(*cell.ensemble, now) && (now - *cell.ensemble->issued_at <= limit || forecasts.empty());
    if (forecasts.empty() && !members) continue;
    Ready& ready = ready_[cell.cell.cell];
    std::vector<Series> bridged;
    const auto take = [&](const Forecast& forecast) {
      add_to(ready.told.source, forecast.source, ", ");
      add_to(ready.told.credit, forecast.credit, ". ");
      if (!ready.told.issued_at) ready.told.issued_at = forecast.issued_at;
    };
    for (const Forecast* forecast : forecasts) {
      take(*forecast);
      bridged.push_back(forecast->control);
      weather::bridge_gaps(bridged.back());
    }
    std::vector<const Series*> by_trust;
    for (const Series& series : bridged) by_trust.push_back(&series);
    const weather::Blend blended = weather::blend(by_trust, now);
    for (std::size_t hour = 0; hour < blended.speaker.size(); ++hour)
      if (blended.control.label(hour) > now && blended.speaker[hour] != weather::Blend::nobody)
        ready.speakers[blended.control.label(hour)] = forecasts[blended.speaker[hour]]->source;
    // What has passed is one and the same for all: members and services differ ahead only.
    const Series past = weather::keep(cell.kept, blended.control, now);
    const auto with_past = [&](const Series& series) { return weather::keep(cell.kept, series, now); };

    if (members) {
      take(*cell.ensemble);
      ready.told.issued_at = std::min(*ready.told.issued_at, *cell.ensemble->issued_at);
      // A member goes on beyond its end as the blended forecast does.
      const auto prolonged = [&](Series member) {
        weather::bridge_gaps(member);
        std::vector<const Series*> first_the_member{&member};
        if (blended.control.hours() > 0) first_the_member.push_back(&blended.control);
        return weather::keep(past, weather::blend(first_the_member, now).control, now);
      };
      ready.weather.control = prolonged(cell.ensemble->control);
      for (const Series& member : cell.ensemble->members) ready.weather.members.push_back(prolonged(member));
    } else {
      ready.weather.control = with_past(blended.control);
      for (std::size_t i = 1; i < blended.opinions.size(); ++i) ready.weather.members.push_back(with_past(blended.opinions[i]));
      ready.weather.services = !ready.weather.members.empty();
    }
    ready.told.place = cell.cell.site();
    ready.told.elevation_known = true;
    ready.told.members.resize(members ? ready.weather.members.size() : 0);
    ready.weather.alerts = cell.alerts;
    ready.weather.notes = notes_of(cell, now);
  }
  for (auto& [cell, ready] : ready_) ready.weather.forecast = &ready.told;
}

std::string OfficeSites::speaker(const units::Site& site, units::UtcHour label) const {
  const auto found = ready_.find(sources::cell_of(site));
  if (found == ready_.end()) return {};
  const auto speaks = found->second.speakers.find(label);
  return speaks == found->second.speakers.end() ? std::string{} : speaks->second;
}

units::Result<SiteWeather> OfficeSites::at(const units::Site& site) const {
  const auto found = ready_.find(sources::cell_of(site));
  if (found == ready_.end())
    return units::fault("weather", "", "expected a forecast for this place: no service answered, and none is kept");
  return found->second.weather;
}

}  // namespace app
