#include "days/holds.h"

#include <algorithm>

#include "days/clock.h"

namespace days {
namespace {

using units::UtcTime;

class Search {
 public:
  Search(const Outlook& outlook, UtcTime from, UtcTime until, std::vector<Hold>& found)
      : outlook_(outlook), from_(from), until_(until), found_(found) {}

  // Joins runs of hours whose `figure` is barred into holds; `clear_h` is waited after the last barred hour. `worse(a, b)`: a is worse.
  template <class Figure, class Barred, class Worse>
  void add(HoldCode code, double clear_h, Figure figure, Barred barred, Worse worse) {
    const std::size_t first_of_code = found_.size();
    for (std::size_t i = 0; i < outlook_.hours(); ++i) {
      const UtcTime begins = outlook_.begins(i), ends = later_by(outlook_.begins(i + 1), clear_h);
      if (ends <= from_ || begins >= until_) continue;
      const auto value = figure(i);
      if (!value || !barred(*value)) continue;
      if (found_.size() > first_of_code && found_.back().until >= begins) {
        found_.back().until = std::min(ends, until_);
        if (worse(*value, found_.back().worst)) found_.back().worst = *value;
      } else {
        found_.push_back({code, std::max(begins, from_), std::min(ends, until_), *value});
      }
    }
  }

  // The whole event, as far as it falls into the day.
  void add_event(HoldCode code, const weather::Alert& alert, double clear_h, double worst) {
    const UtcTime begins = std::max(alert.from, from_), ends = std::min(later_by(alert.until, clear_h), until_);
    if (begins < ends) found_.push_back({code, begins, ends, worst, alert.event});
  }

  // The event's hours that are warm enough, joined.
  void add_heat(const weather::Alert& alert, double warm_c) {
    const std::size_t first_of_alert = found_.size();
    const auto& hours = outlook_.courses.front();
    for (std::size_t i = 0; i < outlook_.hours(); ++i) {
      const UtcTime begins = std::max({UtcTime{outlook_.begins(i)}, alert.from, from_});
      const UtcTime ends = std::min({UtcTime{outlook_.begins(i + 1)}, alert.until, until_});
      if (begins >= ends || hours[i].temp_c < warm_c) continue;
      if (found_.size() > first_of_alert && found_.back().until == begins) {
        found_.back().until = ends;
        found_.back().worst = std::max(found_.back().worst, hours[i].temp_c);
      } else {
        found_.push_back({HoldCode::heat, begins, ends, hours[i].temp_c, alert.event});
      }
    }
  }

 private:
  const Outlook& outlook_;
  UtcTime from_, until_;
  std::vector<Hold>& found_;
};

}  // namespace

std::vector<Hold> holds(const Outlook& outlook, const HoldLimits& limits, const std::vector<double>& wet_share, UtcTime from,
                        UtcTime until) {
  std::vector<Hold> found;
  Search search{outlook, from, until, found};
  const auto& hours = outlook.courses.front();
  const auto more = [](double a, double b) { return a > b; };
  const auto less = [](double a, double b) { return a < b; };
  const auto at_least = [](double limit) { return [limit](double x) { return x >= limit; }; };
  const auto above = [](double limit) { return [limit](double x) { return x > limit; }; };
  const auto below = [](double limit) { return [limit](double x) { return x < limit; }; };
  const auto of_hour = [&](double uptake::HourWeather::*member) {
    return [&hours, member](std::size_t i) { return std::optional{hours[i].*member}; };
  };

  search.add(
      HoldCode::thunder, limits.thunder_clear_h, [&](std::size_t i) { return outlook.signs[i].thunder_pct; }, at_least(limits.thunder_pct),
      more);
  search.add(
      HoldCode::gusts, 0.0, [&](std::size_t i) { return outlook.signs[i].gust_m_s; }, above(limits.gust_m_s), more);
  search.add(HoldCode::heat, 0.0, of_hour(&uptake::HourWeather::temp_c), above(limits.heat_c), more);
  search.add(HoldCode::cold_soil, 0.0, of_hour(&uptake::HourWeather::soil_temp_c), below(limits.soil_cold_c), less);
  search.add(HoldCode::standing_water, 0.0, of_hour(&uptake::HourWeather::saturated_h), at_least(limits.standing_water_h), more);
  search.add(
      HoldCode::leaves_not_out, 0.0, [&](std::size_t i) { return std::optional{outlook.signs[i].leaves_out}; }, below(limits.leaf_share),
      less);

  for (const weather::Alert& alert : outlook.alerts) {
    if (alert.watch) continue;
    switch (alert.kind) {
      case weather::AlertKind::thunder:
        search.add_event(HoldCode::thunder, alert, limits.thunder_clear_h, 100.0);
        break;
      case weather::AlertKind::wind:
        search.add_event(HoldCode::gusts, alert, 0.0, alert.gust_m_s.value_or(0.0));
        break;
      case weather::AlertKind::heat:
        search.add_heat(alert, limits.heat_warned_c);
        break;
      case weather::AlertKind::flood:
        search.add_event(HoldCode::flood, alert, 0.0, 0.0);
        break;
      case weather::AlertKind::freeze:
        search.add_event(HoldCode::freeze, alert, 0.0, 0.0);
        break;
      case weather::AlertKind::other:
        break;
    }
  }

  double wet_h = 0.0;
  for (std::size_t i = 0; i < outlook.hours(); ++i)
    if (outlook.begins(i) >= from && outlook.begins(i) < until && hours[i].clear_sky_w_m2 > 0.0 && wet_share[i] >= limits.wet_crown_share)
      wet_h += 1.0;
  if (wet_h >= limits.wet_day_h) found.push_back({HoldCode::wet_crown, from, until, wet_h});

  std::stable_sort(found.begin(), found.end(), [](const Hold& a, const Hold& b) { return a.from < b.from; });
  return found;
}

std::vector<weather::Alert> watches(const Outlook& outlook, UtcTime from, UtcTime until) {
  std::vector<weather::Alert> found;
  for (const weather::Alert& alert : outlook.alerts)
    if (alert.watch && alert.kind != weather::AlertKind::other && alert.from < until && alert.until > from) found.push_back(alert);
  return found;
}

}  // namespace days
