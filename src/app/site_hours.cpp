#include "app/site_hours.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

#include "air/hours.h"
#include "app/words.h"
#include "days/range_sky.h"
#include "tree/leaf_state.h"

namespace app {
namespace {

using units::LocalDay;

air::HoursOptions air_options(const Place& place, std::optional<double> wind_height_m) {
  air::HoursOptions options;
  options.elevation_known = place.elevation_known;
  if (wind_height_m) options.wind_height = units::Metres{*wind_height_m};
  return options;
}

// The whole record of the air. Hours without sun or cloud take the sky that their range of temperature speaks for, so that soil and
// leaves dry in them too; how many of them lie after `now` goes to `guessed_ahead`.
air::AirHours complete_air(weather::Series series, const units::Site& site, const air::HoursOptions& options, units::UtcTime now,
                           std::size_t& guessed_ahead) {
  air::AirHours air = air::complete(series, site, options);
  bool guessed = false;
  for (std::size_t hour = 0; hour < air.hours(); ++hour) {
    if (air.shortwave_w_m2.has(hour) || !air.temp_c.has(hour)) continue;
    guessed = true;
    guessed_ahead += air.label(hour) > now ? 1 : 0;
    series[weather::Variable::shortwave].set(hour, days::range_sky_share(air, site, hour) * *air.clear_sky_w_m2.at(hour),
                                             weather::Provenance::derived);
  }
  return guessed ? air::complete(series, site, options) : air;
}

// Daily means by local day; a day without temperature takes its predecessor's.
std::optional<tree::DailyTemperatures> daily_means(const air::AirHours& air, const units::ZoneOffsets& zone) {
  std::map<LocalDay, std::pair<double, int>> sums;
  for (std::size_t hour = 0; hour < air.hours(); ++hour)
    if (const auto t = air.temp_c.at(hour)) {
      auto& [sum, count] = sums[zone.day_of(air.label(hour) - std::chrono::seconds{1})];
      sum += *t;
      ++count;
    }
  if (sums.empty()) return std::nullopt;
  tree::DailyTemperatures means{sums.begin()->first, {}};
  for (LocalDay day = means.first_day; day <= sums.rbegin()->first; day += std::chrono::days{1}) {
    const auto found = sums.find(day);
    means.mean_c.push_back(found != sums.end() ? found->second.first / found->second.second : means.mean_c.back());
  }
  return means;
}

std::vector<double> leaves_out(const air::AirHours& air, const units::ZoneOffsets& zone, const units::Site& site, const LeafFacts& facts) {
  std::vector<double> shares(air.hours(), 0.0);
  const auto means = daily_means(air, zone);
  if (!means) return shares;
  std::map<LocalDay, double> by_day;
  for (std::size_t hour = 0; hour < air.hours(); ++hour) {
    const LocalDay day = zone.day_of(air.label(hour) - std::chrono::seconds{1});
    const auto known = by_day.find(day);
    shares[hour] =
        known != by_day.end()
            ? known->second
            : by_day.emplace(day, tree::leaf_state(facts.calendar, site.latitude, *means, facts.full_leaf_seen, day).share).first->second;
  }
  return shares;
}

// The provider's temperature over the upper root zone: the layer that holds 20 cm, else the nearest one above it.
weather::Column provider_soil_temperature(const weather::Series& series) {
  const weather::SoilLayer* best = nullptr;
  constexpr units::Metres wanted{0.20};
  for (const auto& layer : series.soil)
    if (!layer.temperature_c.empty() && layer.top <= wanted) best = &layer;
  return best ? best->temperature_c : weather::Column{};
}

soil::Forcing forcing(const weather::Series& series, const air::AirHours& air, const std::vector<double>& leaves) {
  soil::Forcing f;
  f.rain_mm = series[weather::Variable::rain];
  f.et0_mm = weather::Column{air.hours()};
  for (std::size_t hour = 0; hour < air.hours(); ++hour)
    if (const auto et0 = air.et0_asce_short_mm_h.at(hour))
      f.et0_mm.set(hour, std::max(0.0, *et0), air.et0_asce_short_mm_h.provenance(hour));
  f.temp_c = air.temp_c;
  f.soil_temp_c = provider_soil_temperature(series);
  f.leaf_share = leaves;
  return f;
}

// What others say of the ground, and who they are.
struct Said {
  std::vector<soil::Observation> observations;
  std::vector<std::string> by;
  bool look_too_old = false;  // before the weather begins
};

// The last hour of the series that has ended at `instant`.
std::size_t hour_ended(const weather::Series& series, units::UtcTime instant) {
  const auto inside = std::clamp<units::UtcTime>(instant, series.first_label(), series.label(series.hours() - 1));
  return *series.index_of(std::chrono::floor<std::chrono::hours>(inside));
}

// The service speaks at `now`, a person on the day of the look.
Said said_of_ground(const weather::Series& series, const Ground& ground, const units::ZoneOffsets& zone, units::UtcTime now) {
  Said said;
  const std::size_t present = hour_ended(series, now);
  if (!series.soil.empty())
    for (std::size_t back = 0; back <= std::min<std::size_t>(present, 24) && said.observations.empty(); ++back)
      said.observations = soil::provider_reading(ground.zone, series.soil, present - back, present);
  if (!said.observations.empty()) said.by.emplace_back("the service's own soil moisture");
  const SoilLook& look = ground.look;
  if (!look.says_something()) return said;
  constexpr std::chrono::hours noon{12};
  const units::UtcTime then = look.on ? std::min(now, zone.to_utc(units::LocalTime{*look.on} + noon)) : now;
  said.look_too_old = then < series.first_label();
  if (said.look_too_old) return said;
  const std::size_t hour = hour_ended(series, then);
  const std::string when = look.on ? " on " + words::day(*look.on) : "";
  const auto add = [&](const char* what, const soil::Observation& observation) {
    said.observations.push_back(observation);
    said.by.push_back(what + when);
  };
  if (look.rew) add("the figure given for it", soil::stated_rew(ground.zone, hour, *look.rew));
  if (look.probe) add("the probe", soil::hand_probe(ground.zone, hour, look.probe->depth_cm, look.probe->theta));
  if (look.feel) add("the hand's judgement", soil::felt_from_the_top(ground.zone, hour, *look.feel));
  return said;
}

// From the first hour that says anything of the weather.
double past_days(const weather::Series& series, units::UtcTime now) {
  for (std::size_t hour = 0; hour < series.hours() && series.label(hour) <= now; ++hour)
    if (series.any(hour)) return std::chrono::duration<double, std::ratio<86400>>(now - series.label(hour)).count();
  return 0.0;
}

std::string soil_story(const soil::RootZone& zone, const weather::Series& series, double past_days, units::UtcTime now) {
  std::string story = past_days >= 1.0 ? fmt::format("soil followed through {:.0f} days of past weather", past_days)
                                       : std::string{"no past rain in the weather file"};
  if (soil::share_of_start_left(zone, past_days * 24.0) > 0.25) story += "; it began from a guess, so ranges are wide";
  std::size_t unknown_rain_h = 0;
  bool begun = false;
  for (std::size_t hour = 0; hour < series.hours() && series.label(hour) <= now; ++hour)
    if ((begun = begun || series.any(hour)) && !series[weather::Variable::rain].has(hour)) ++unknown_rain_h;
  if (unknown_rain_h > 0) story += fmt::format("; rain unknown for {} h", unknown_rain_h);
  return story;
}

// "; soil water 48 % of what roots can take, the model alone 62 %: corrected by the probe on Wed Jun 24".
std::string correction_story(const SiteHours& hours) {
  if (!hours.soil_alone) return "";
  return fmt::format(
      "; soil water {:.0f} % (+/- {:.0f}) of what roots can take, where the model alone had {:.0f} % (+/- {:.0f}): corrected by {}",
      100.0 * hours.rew_now, 100.0 * hours.rew_sd_now, 100.0 * hours.soil_alone->rew, 100.0 * hours.soil_alone->rew_sd,
      fmt::join(hours.soil_alone->corrected_by, " and "));
}

}  // namespace

units::Result<SiteHours> site_hours(const SiteWeather& weather, const Place& place, const units::ZoneOffsets& zone, const Ground& ground,
                                    const LeafFacts& leaf_facts, units::UtcTime now, std::optional<double> wind_height_m,
                                    std::size_t extra_h) {
  SiteHours result;
  const auto options = air_options(place, wind_height_m);
  std::size_t guessed_ahead = 0;
  result.air = complete_air(weather.control, place.site, options, now, guessed_ahead);
  if (result.air.temp_c.empty() || result.air.dew_point_c.empty())
    return units::fault("weather", "", "expected hours with temperature and humidity");
  result.leaves_out = leaves_out(result.air, zone, place.site, leaf_facts);

  const soil::State start = soil::guessed_start(ground.zone);
  const auto soil_run = [&](const weather::Series& series, const air::AirHours& air) {
    return soil::run(ground.zone, start, forcing(series, air, result.leaves_out), said_of_ground(series, ground, zone, now).observations);
  };
  auto control_soil = soil_run(weather.control, result.air);
  if (!control_soil) return tl::make_unexpected(control_soil.error());
  result.soil = std::move(*control_soil);

  std::vector<air::AirHours> member_air;
  std::vector<soil::Run> member_soil;
  member_air.reserve(weather.members.size());
  member_soil.reserve(weather.members.size());
  for (const auto& member : weather.members) {
    std::size_t guessed_in_member = 0;
    member_air.push_back(complete_air(member, place.site, options, now, guessed_in_member));
    auto run = soil_run(member, member_air.back());
    if (!run) return tl::make_unexpected(run.error());
    member_soil.push_back(std::move(*run));
  }
  std::vector<days::Course> courses{{&result.air, &result.soil.hours, &weather.control}};
  for (std::size_t m = 0; m < member_air.size(); ++m) courses.push_back({&member_air[m], &member_soil[m].hours, &weather.members[m]});
  result.outlook = days::bring_together(courses, {result.leaves_out, leaf_facts.crown_now}, place.site,
                                        {now, weather.forecast->issued_at.value_or(now), extra_h, weather.services});
  result.outlook.alerts = weather.alerts;
  if (guessed_ahead > 0)
    result.outlook.notes.push_back(
        fmt::format("no cloud or sunshine in the forecast for {} h: taken from the day's range of temperature", guessed_ahead));
  result.past_days = past_days(weather.control, now);
  if (result.outlook.known == 0) return units::fault("weather", "", "expected hours with temperature and humidity in every member");
  // As of the last label not after now, where observations act; of the first hour where the weather begins later.
  const std::size_t hour = result.outlook.hour_at(now).value_or(0);
  const uptake::HourWeather& present = result.outlook.courses.front()[hour > 0 ? hour - 1 : 0];
  result.rew_now = present.rew;
  result.rew_sd_now = present.rew_sd;
  result.soil_story = soil_story(ground.zone, weather.control, result.past_days, now);
  Said said = said_of_ground(weather.control, ground, zone, now);
  if (!said.observations.empty()) {
    const auto alone = soil::run(ground.zone, start, forcing(weather.control, result.air, result.leaves_out));
    if (!alone) return tl::make_unexpected(alone.error());
    const std::size_t at = hour_ended(weather.control, now);
    result.soil_alone = SoilAlone{alone->hours.rew[at], alone->hours.rew_sd[at], std::move(said.by)};
  }
  result.soil_story += correction_story(result);
  if (said.look_too_old) result.soil_story += "; what was found in the ground lies before the weather begins and is not used";
  return result;
}

}  // namespace app
