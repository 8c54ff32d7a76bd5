#include "days/forecast_error.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "air/shortwave.h"
#include "days/clock.h"
#include "units/random.h"

namespace days {
namespace {

using units::Lanes;

// Errors are drawn at knots half a day apart and run linearly between them.
constexpr double knot_d = 0.5;
constexpr std::size_t streams = 5;
enum Stream : std::size_t { temperature, dew_point, cloud, rain, amount };
using Deviates = std::array<Lanes, streams>;

// Uniform number of one draw, stream and knot: low-discrepancy as long as Sobol's coordinates last.
double uniform(std::size_t draw, std::size_t knot, std::size_t stream, std::uint64_t seed) {
  const std::size_t dimension = uptake::draw_dimensions + knot * streams + stream;
  return dimension < units::sobol_dimensions ? units::sobol(static_cast<std::uint32_t>(draw), static_cast<unsigned>(dimension), seed)
                                             : units::hashed_uniform(seed, dimension, draw);
}

// A first-order autoregression of unit variance from the issue on.
std::vector<Deviates> knots(std::size_t block, std::size_t count, double correlation, std::uint64_t seed) {
  std::vector<Deviates> all(count);
  const double fresh = std::sqrt(1.0 - correlation * correlation);
  for (std::size_t knot = 0; knot < count; ++knot)
    for (std::size_t stream = 0; stream < streams; ++stream) {
      Lanes z;
      for (int lane = 0; lane < Lanes::count; ++lane)
        z.set(lane, units::normal_quantile(uniform(block * Lanes::count + static_cast<std::size_t>(lane), knot, stream, seed)));
      all[knot][stream] = knot == 0 ? z : correlation * all[knot - 1][stream] + fresh * z;
    }
  return all;
}

// What one hour of the outlook is to every draw.
struct ErrorHour {
  std::size_t knot = 0;               // between this one and the next:
  double before = 0.0, behind = 0.0;  // weights of the two, for unit variance
  double sd_temp_c = 0.0, sd_cloud = 0.0;
  double cloud_drift = 0.0;      // of the mean, toward the sky's climate
  double rain_mm = 0.0;          // as forecast
  std::optional<RainOdds> odds;  // nothing where it has fallen already
  double dry_below = 0.0;        // deviate above which it rains
};

RainSaid rain_said(const Outlook& outlook, std::size_t course, std::size_t hour) {
  if (!outlook.rain_said.empty()) return outlook.rain_said[course][hour];
  return {outlook.signs[hour].rain_known, outlook.signs[hour].rain_chance_pct};
}

ErrorHour error_hour(const Outlook& outlook, const WeatherError& error, double correlation, std::size_t course, std::size_t hour) {
  const double lead_d = days_between(outlook.issued, outlook.begins(hour) + std::chrono::minutes{30});
  const uptake::HourWeather& w = outlook.courses[course][hour];
  ErrorHour e;
  const double position = std::max(lead_d, 0.0) / knot_d;
  e.knot = static_cast<std::size_t>(position);
  const double share = position - static_cast<double>(e.knot);
  const double scale = std::sqrt((1.0 - share) * (1.0 - share) + share * share + 2.0 * share * (1.0 - share) * correlation);
  e.before = (1.0 - share) / scale;
  e.behind = share / scale;
  e.sd_temp_c = at_lead(error.temperature_sd_c, lead_d);
  e.sd_cloud = at_lead(error.cloud_sd_pct, lead_d) / 100.0;
  const double skilled_d = error.cloud_sd_pct.lead_d.back();
  const double usual = std::clamp((lead_d - skilled_d) / std::max(error.cloud_usual_by_d - skilled_d, 1e-9), 0.0, 1.0);
  if (usual > 0.0 && w.clear_sky_w_m2 > 0.0) {
    const double forecast = air::cloud_at_transmission(units::Fraction{w.shortwave_w_m2 / w.clear_sky_w_m2}).value;
    e.cloud_drift = usual * (error.cloud_usual_pct / 100.0 - forecast);
  }
  e.rain_mm = w.rain_mm;
  if (lead_d > 0.0) {
    const RainSaid said = rain_said(outlook, course, hour);
    e.odds = rain_odds(error, said.known ? std::optional{w.rain_mm} : std::nullopt, said.chance_pct, lead_d);
    if (e.odds->chance > 0.0 && e.odds->chance < 1.0) e.dry_below = units::normal_quantile(1.0 - e.odds->chance);
  }
  return e;
}

uptake::Shift<Lanes> shift(const ErrorHour& hour, const WeatherError& error, const std::vector<Deviates>& knots) {
  const auto z = [&](Stream stream) { return hour.before * knots[hour.knot][stream] + hour.behind * knots[hour.knot + 1][stream]; };
  const double with_temp = error.dew_point_correlation, with_cloud = error.rain_with_cloud;
  const Lanes t = z(temperature), c = z(cloud);
  uptake::Shift<Lanes> s;
  s.temp_c = hour.sd_temp_c * t;
  s.dew_point_c = hour.sd_temp_c * (with_temp * t + std::sqrt(1.0 - with_temp * with_temp) * z(dew_point));
  s.cloud = hour.sd_cloud * c + hour.cloud_drift;
  if (!hour.odds) return s;
  const Lanes dry{-hour.rain_mm};
  if (hour.odds->chance <= 0.0) {
    s.rain_mm = dry;
    return s;
  }
  const Lanes wet = hour.odds->amount_mm * units::exp(error.rain_ln_sd * (z(amount) - 0.5 * error.rain_ln_sd)) - hour.rain_mm;
  const Lanes wetness = with_cloud * c + std::sqrt(1.0 - with_cloud * with_cloud) * z(rain);
  s.rain_mm = hour.odds->chance >= 1.0 ? wet : units::select(wetness > Lanes{hour.dry_below}, wet, dry);
  return s;
}

}  // namespace

double at_lead(const ByLead& table, double lead_d) {
  const auto& x = table.lead_d;
  if (lead_d <= x.front()) return table.value.front();
  if (lead_d >= x.back()) return table.value.back();
  const auto above = static_cast<std::size_t>(std::upper_bound(x.begin(), x.end(), lead_d) - x.begin());
  const double share = (lead_d - x[above - 1]) / (x[above] - x[above - 1]);
  return table.value[above - 1] + share * (table.value[above] - table.value[above - 1]);
}

RainOdds rain_odds(const WeatherError& error, std::optional<double> amount_mm, std::optional<double> chance_pct, double lead_d) {
  if (amount_mm && *amount_mm > 0.0) {
    const double chance = chance_pct ? std::max(*chance_pct / 100.0, error.rain_least_chance) : at_lead(error.rain_hit, lead_d);
    return {chance, *amount_mm / chance};
  }
  const double chance = chance_pct ? *chance_pct / 100.0 : amount_mm ? at_lead(error.rain_missed, lead_d) : error.rain_usual;
  return {chance, error.rain_hour_mm};
}

ForecastError::ForecastError(const Outlook& outlook, const WeatherError& error, std::size_t blocks, std::uint64_t seed)
    : outlook_(outlook) {
  if (!outlook.shifted || outlook.hours() == 0) return;
  const double correlation = std::pow(error.day_to_day, knot_d);
  std::vector<std::vector<ErrorHour>> courses(outlook.courses.size());
  for (std::size_t course = 0; course < courses.size(); ++course)
    for (std::size_t hour = 0; hour < outlook.hours(); ++hour)
      courses[course].push_back(error_hour(outlook, error, correlation, course, hour));
  for (std::size_t block = 0; block < blocks; ++block) {
    const auto& hours = courses[block % courses.size()];
    const auto deviates = knots(block, hours.back().knot + 2, correlation, seed);
    auto& shifts = shifts_.emplace_back();
    shifts.reserve(hours.size());
    for (const ErrorHour& hour : hours) shifts.push_back(shift(hour, error, deviates));
  }
}

std::vector<uptake::Scenario> ForecastError::scenarios(std::size_t from, std::size_t until) const {
  std::vector<uptake::Scenario> all;
  const auto slice = [&](const auto& hours) {
    return std::vector(hours.begin() + static_cast<std::ptrdiff_t>(from), hours.begin() + static_cast<std::ptrdiff_t>(until));
  };
  if (!outlook_.shifted)
    for (const auto& course : outlook_.courses) all.push_back({slice(course), std::vector<uptake::Shift<Lanes>>(until - from)});
  for (std::size_t block = 0; block < shifts_.size(); ++block) all.push_back({slice(course_of(block)), slice(shifts_[block])});
  return all;
}

std::vector<Departure> ForecastError::departures(std::size_t from, std::size_t until, std::size_t draws) const {
  std::vector<Departure> all;
  if (shifts_.empty()) return all;
  const double hours = static_cast<double>(until - from);
  for (std::size_t draw = 0; draw < draws; ++draw) {
    const int lane = static_cast<int>(draw % Lanes::count);
    const auto &first = outlook_.courses.front(), &course = course_of(draw / Lanes::count);
    Departure sum;
    for (std::size_t hour = from; hour < until; ++hour) {
      const auto& shift = shifts_[draw / Lanes::count][hour];
      sum.temp_c += (course[hour].temp_c - first[hour].temp_c + shift.temp_c[lane]) / hours;
      sum.dew_point_c += (course[hour].dew_point_c - first[hour].dew_point_c + shift.dew_point_c[lane]) / hours;
      sum.cloud += shift.cloud[lane] / hours;
      sum.rain_share += course[hour].rain_mm + shift.rain_mm[lane] > 0.0 ? 1.0 / hours : 0.0;
    }
    all.push_back(sum);
  }
  return all;
}

}  // namespace days
