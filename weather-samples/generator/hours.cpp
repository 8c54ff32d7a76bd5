#include "generator/hours.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/humidity.h"
#include "air/pressure.h"
#include "air/shortwave.h"
#include "air/sun.h"
#include "generator/random.h"
#include "generator/soil.h"

namespace samples {
namespace {

constexpr double coldest_solar_h = 4.8;
constexpr double warmest_solar_h = 15.0;
constexpr double thick_cloud = 0.6;  // rain clouds are darker than their cover alone tells

enum Stream : std::uint64_t { temperature, sky, wind, gust, direction, rain };

// Everything of one story by clock hour: hour c is c hours after the first midnight of its clock.
class Teller {
 public:
  explicit Teller(const Story& story)
      : story_(story),
        site_{units::Degrees{story.place.lat}, units::Degrees{story.place.lon}, units::Metres{story.place.elevation_m}},
        midnight_(story.first - std::chrono::hours{24 + story.place.clock_offset_h}),
        count_(24 * static_cast<int>(story.days.size())),
        solar_minus_clock_h_(story.place.lon / 15.0 - story.place.clock_offset_h),
        rain_mm_(static_cast<std::size_t>(count_) + 1),
        thunder_(rain_mm_.size()) {
    for (int day = 0; day < days(); ++day)
      for (const Rain& event : at(day).rain) drop(24 * day + static_cast<int>(event.from_h), event);
  }

  std::vector<Hour> hours() const {
    std::vector<Hour> told;
    double wobble_c = 0.0;
    double wobble_cloud = 0.0;
    double wobble_wind = 0.0;
    for (int c = 1; c <= count_; ++c) {
      wobble_c = 0.8 * wobble_c + 0.2 * noise(temperature, c);
      wobble_cloud = 0.75 * wobble_cloud + 6.0 * noise(sky, c);
      wobble_wind = 0.7 * wobble_wind + 0.09 * noise(wind, c);
      told.push_back(hour(c, wobble_c, wobble_cloud, wobble_wind));
    }
    add_sunlight(told);
    add_soil(story_.place.ground, told);
    return told;
  }

 private:
  int days() const { return static_cast<int>(story_.days.size()); }
  const Day& at(int day) const { return story_.days[static_cast<std::size_t>(std::clamp(day, 0, days() - 1))]; }
  UtcHour label(int c) const { return midnight_ + std::chrono::hours{c}; }
  std::size_t slot(int c) const { return static_cast<std::size_t>(std::clamp(c, 0, count_)); }

  double noise(Stream stream, int c) const {
    const std::uint64_t member = label(c) > story_.now ? story_.member : 0;
    return normal(story_.seed, 16 * member + stream, static_cast<std::uint64_t>(c));
  }

  void drop(int from, const Rain& event) {
    std::vector<double> weights;
    double sum = 0.0;
    for (int k = 0; k < event.hours; ++k) {
      const double bell = std::sin(std::numbers::pi * (k + 0.5) / event.hours);
      const auto index = static_cast<std::uint64_t>(std::max(0, from + k));
      weights.push_back(bell * (0.55 + 0.9 * uniform(story_.seed, 16 * story_.member + rain, index)));
      sum += weights.back();
    }
    for (int k = 0; k < event.hours; ++k) {
      const int c = from + k + 1;
      if (c < 1 || c > count_) continue;
      rain_mm_[slot(c)] += event.total_mm * weights[static_cast<std::size_t>(k)] / sum;
      if (event.thunder) thunder_[slot(c)] = 1;
    }
  }

  double smooth_temperature(int c) const {
    const double solar = c + solar_minus_clock_h_ - coldest_solar_h;
    const int day = static_cast<int>(std::floor(solar / 24.0));
    const double since_coldest_h = solar - 24.0 * day;
    constexpr double rise_h = warmest_solar_h - coldest_solar_h;
    if (since_coldest_h <= rise_h)
      return at(day).low_c + (at(day).high_c - at(day).low_c) * 0.5 * (1.0 - std::cos(std::numbers::pi * since_coldest_h / rise_h));
    const double share = std::pow((since_coldest_h - rise_h) / (24.0 - rise_h), 0.8);  // evenings cool faster than late nights
    return at(day + 1).low_c + (at(day).high_c - at(day + 1).low_c) * 0.5 * (1.0 + std::cos(std::numbers::pi * share));
  }

  double between_noons(int c, double Day::*figure) const {
    const double noons = (c - 12) / 24.0;
    const int day = static_cast<int>(std::floor(noons));
    return at(day).*figure + (noons - day) * (at(day + 1).*figure - at(day).*figure);
  }

  double smooth_cloud(int c) const {
    const double steps = (c - 3) / 6.0;
    const int step = static_cast<int>(std::floor(steps));
    const auto knot = [this](int k) { return at(k < 0 ? 0 : k / 4).cloud_pct[static_cast<std::size_t>(k < 0 ? 0 : k % 4)]; };
    return knot(step) + (steps - step) * (knot(step + 1) - knot(step));
  }

  // A thunderstorm's downdraught cools the air at once; the sun takes hours to make that good.
  double storm_cooling_c(int c) const {
    for (int back = 0; back < 8; ++back)
      if (thunder_[slot(c - back)] != 0) return 5.0 * (1.0 - back / 8.0);
    return 0.0;
  }

  double chance(int c) const {
    double near_mm = 0.0;
    for (int k = -2; k <= 2; ++k) near_mm += rain_mm_[slot(c + k)] / (1.0 + std::abs(k));
    const double said = near_mm > 0.0 ? 55.0 + 40.0 * (1.0 - std::exp(-near_mm / 3.0)) : 0.08 * smooth_cloud(c);
    const double lead_days = std::max(0.0, static_cast<double>((label(c) - story_.now).count()) / 24.0);
    const double fades = std::min(0.75, 0.06 * lead_days);
    return said + fades * (22.0 - said);
  }

  Hour hour(int c, double wobble_c, double wobble_cloud, double wobble_wind) const {
    Hour h{};
    h.label = label(c);
    h.rain_mm = rain_mm_[slot(c)];
    h.thunder = thunder_[slot(c)] != 0;
    const bool wet = h.rain_mm > 0.0;
    h.temp_c = smooth_temperature(c) - storm_cooling_c(c) + wobble_c;
    h.dew_point_c = std::min(between_noons(c, &Day::dew_c) + (wet ? 1.2 : 0.0) + 0.5 * wobble_c, h.temp_c - (wet ? 0.3 : 0.1));
    h.rh_pct = 100.0 * (air::saturation_pressure(units::Celsius{h.dew_point_c}) / air::saturation_pressure(units::Celsius{h.temp_c}));
    const double cloud = smooth_cloud(c) + wobble_cloud * (0.25 + 0.75 * std::sin(std::numbers::pi * smooth_cloud(c) / 100.0));
    h.cloud_pct = std::clamp(wet ? std::max(cloud, 90.0) : cloud, 0.0, 100.0);
    const double by_day = std::max(0.0, std::sin(std::numbers::pi * (c % 24 - 7) / 14.0));
    h.wind_m_s = std::max(0.3, at((c - 1) / 24).wind_m_s * (0.75 + 0.55 * by_day + wobble_wind) + (h.thunder ? 3.0 : 0.0));
    h.gust_m_s = h.wind_m_s * (1.55 + 0.12 * std::abs(noise(gust, c))) + (h.thunder ? 8.0 : 0.0);
    h.wind_from_deg = std::fmod(220.0 + 6.0 * (1017.0 - between_noons(c, &Day::sea_level_hpa)) + 12.0 * noise(direction, c) + 720.0, 360.0);
    h.sea_level_hpa = between_noons(c, &Day::sea_level_hpa) + 0.5 * std::cos(std::numbers::pi * (c - 10) / 6.0);
    h.station_hpa = h.sea_level_hpa * (air::pressure_at(site_.elevation) / air::pressure_at(units::Metres{0.0}));
    h.rain_chance_pct = std::clamp(chance(c), 0.0, 100.0);
    return h;
  }

  void add_sunlight(std::vector<Hour>& told) const {
    double cloud_before = told.front().cloud_pct;
    for (Hour& hour : told) {
      const double cloud = 0.5 * (cloud_before + hour.cloud_pct) / 100.0;
      const double passed = air::cloud_transmission(units::Fraction{cloud}).value * (hour.rain_mm > 0.2 ? thick_cloud : 1.0);
      hour.shortwave_w_m2 = passed * clear_sky_w_m2(hour.label);
      cloud_before = hour.cloud_pct;
    }
  }

  double clear_sky_w_m2(UtcHour label) const {
    const auto outside = air::extraterrestrial(site_, label - std::chrono::hours{1}, label);
    return air::clear_sky(outside, site_.elevation).value / air::megajoules_per_watt_hour;
  }

  const Story& story_;
  units::Site site_;
  UtcHour midnight_;
  int count_;
  double solar_minus_clock_h_;
  std::vector<double> rain_mm_;
  std::vector<char> thunder_;
};

}  // namespace

std::vector<Hour> tell(const Story& story) { return Teller{story}.hours(); }

std::vector<Hour> between(const std::vector<Hour>& hours, UtcHour from, UtcHour to) {
  std::vector<Hour> some;
  for (const Hour& hour : hours)
    if (hour.label >= from && hour.label <= to) some.push_back(hour);
  return some;
}

}  // namespace samples
