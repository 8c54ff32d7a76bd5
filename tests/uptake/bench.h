// Random and chosen trees, soils and days for the tests of uptake: invented, but covering more than the field ever will.
#pragma once
#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <numbers>
#include <vector>

#include "support/shipped_models.h"
#include "units/random.h"
#include "uptake/day.h"
#include "uptake/subject.h"

namespace bench {

using units::Lanes;

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : seed_(seed) {}
  double uniform(double lowest, double highest) { return lowest + (highest - lowest) * units::hashed_uniform(seed_, 77, next_++); }
  double log_uniform(double lowest, double highest) { return lowest * std::exp(uniform(0.0, std::log(highest / lowest))); }
  bool one_in(double n) { return uniform(0.0, n) < 1.0; }
  std::size_t index(std::size_t count) { return std::min(count - 1, static_cast<std::size_t>(uniform(0.0, static_cast<double>(count)))); }

 private:
  std::uint64_t seed_, next_ = 0;
};

inline uptake::Subject subject(double dbh_cm, std::string_view species = "american elm") {
  const tree::Species s = shipped::species(species);
  const params::Models& m = shipped::models();
  uptake::Subject subject;
  subject.source = uptake::make_source(m.tree, m.ports, m.practice.set_up.flare_factor, s);
  subject.allometry = s.allometry;
  subject.measured.dbh = units::Centimetres{dbh_cm};
  subject.port_factor = s.port_factor;
  subject.port_spacing = units::Centimetres{m.practice.set_up.port_spacing_cm};
  subject.pressure = units::Megapascals{m.practice.set_up.pressure_kpa / 1000.0};
  subject.dose = units::Litres{m.practice.set_up.dose_l_per_cm * dbh_cm};
  subject.flush = units::Litres{0.05 * subject.dose.value};
  return subject;
}

// A day by its extremes: cosine temperature warmest at 15, constant dew point, a half sine of sun from 5:30 to 20:30.
struct Weather {
  double temp_mean_c = 23.0, temp_swing_c = 6.0, dew_point_c = 13.0, sun_w_m2 = 900.0, cloud_share = 1.0, rain_mm_h = 0.0,
         soil_temp_c = 20.0;
  double rew = 0.9, leaf_share = 1.0, saturated_h = 0.0;
};

// Hours from `first_hour` o'clock on.
inline std::vector<uptake::HourWeather> hours(const Weather& w, int first_hour, std::size_t count) {
  std::vector<uptake::HourWeather> result(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double clock = std::fmod(first_hour + static_cast<double>(i) + 0.5, 24.0);
    uptake::HourWeather& h = result[i];
    h.temp_c = w.temp_mean_c + w.temp_swing_c * std::cos(2.0 * std::numbers::pi * (clock - 15.0) / 24.0);
    h.dew_point_c = std::min(h.temp_c, w.dew_point_c);
    h.pressure_kpa = 101.3;
    h.clear_sky_w_m2 = clock > 5.5 && clock < 20.5 ? w.sun_w_m2 * std::sin(std::numbers::pi * (clock - 5.5) / 15.0) : 0.0;
    h.shortwave_w_m2 = w.cloud_share * h.clear_sky_w_m2;
    h.reference_mm = 0.0007 * h.shortwave_w_m2 - 0.01;
    h.rain_mm = w.rain_mm_h;
    h.soil_temp_c = w.soil_temp_c;
    h.rew = w.rew;
    h.leaf_share = w.leaf_share;
    h.saturated_h = w.saturated_h;
  }
  return result;
}

struct Case {
  uptake::Subject subject;
  soil::RewCurve curve;
  std::vector<uptake::HourWeather> hours;
  double water_mm = 0.0;
};

inline soil::RewCurve loam() { return soil::RewCurve{shipped::texture("loam")}; }

// Any tree on any soil on any day; with `extremes` also what no crew would try.
inline Case any_case(std::uint64_t seed, bool extremes, std::size_t count = 34) {
  Dice dice{seed};
  const auto& species = shipped::models().species;
  const auto& textures = shipped::models().textures;
  Case c{subject(extremes ? dice.log_uniform(2, 400) : dice.log_uniform(20, 160), species[dice.index(species.size())].key),
         soil::RewCurve{textures[dice.index(textures.size())]},
         {}};
  Weather w;
  w.temp_mean_c = extremes ? dice.uniform(-15, 42) : dice.uniform(14, 28);
  w.temp_swing_c = dice.uniform(1, 9);
  w.dew_point_c = w.temp_mean_c - w.temp_swing_c - dice.uniform(0, 12);
  w.sun_w_m2 = dice.uniform(300, 1000);
  w.cloud_share = dice.uniform(0.25, 1);
  w.soil_temp_c = extremes ? dice.uniform(-4, 34) : dice.uniform(12, 24);
  w.rew = extremes ? dice.uniform(0, 1.3) : dice.uniform(0.25, 1.1);
  c.subject.pressure = units::Megapascals{dice.uniform(0.05, 0.2)};
  c.hours = hours(w, 5, count);
  if (extremes) {
    if (dice.one_in(6)) c.subject.pressure = units::Megapascals{0.0};
    if (dice.one_in(6)) c.subject.port_count = 0.0;
    if (dice.one_in(6)) w.leaf_share = 0.0;
    if (dice.one_in(6)) w.rew = 0.0;
    if (dice.one_in(6)) w.saturated_h = 48.0;
    if (dice.one_in(4)) w.rain_mm_h = dice.uniform(0, 10);
    c.hours = hours(w, 5, count);
    // Weather that jumps from hour to hour as none does.
    if (dice.one_in(3))
      for (uptake::HourWeather& h : c.hours) {
        h.temp_c = dice.uniform(-20, 45);
        h.dew_point_c = h.temp_c - dice.uniform(0, 30);
        h.shortwave_w_m2 = dice.uniform(0, 1100);
        h.soil_temp_c = dice.uniform(-4, 34);
        h.rew = dice.uniform(0, 1.5);
      }
  }
  c.water_mm = dice.uniform(0, 0.5);
  return c;
}

template <class R>
uptake::Day<R> day(const Case& c, const uptake::Draw<R>& draw, std::size_t steps_an_hour = uptake::steps_per_hour) {
  uptake::Day<R> day;
  day.steps_an_hour = steps_an_hour;
  day.step_h = 1.0 / static_cast<double>(steps_an_hour);
  const std::vector<uptake::Shift<R>> shifts(c.hours.size());
  uptake::prepare<R>(c.subject, draw, c.curve, c.hours, shifts, c.water_mm, day);
  return day;
}

inline uptake::Draw<double> middle(const Case& c) { return uptake::central_draw(c.subject.source); }

// One lane of a draw: its members are the same in the same order.
inline uptake::Draw<double> lane_of(const uptake::Draw<Lanes>& draw, int lane) {
  std::array<double, uptake::draw_dimensions> one;
  const auto all = std::bit_cast<std::array<Lanes, uptake::draw_dimensions>>(draw);
  for (std::size_t i = 0; i < one.size(); ++i) one[i] = all[i][lane];
  return std::bit_cast<uptake::Draw<double>>(one);
}

// One thing of eight trees side by side: its members are the same in the same order. Missing trees repeat the last.
template <template <class> class Thing>
Thing<Lanes> side_by_side(const std::vector<Thing<double>>& things) {
  constexpr std::size_t members = sizeof(Thing<double>) / sizeof(double);
  std::array<Lanes, members> wide;
  for (int lane = 0; lane < Lanes::count; ++lane) {
    const auto one = std::bit_cast<std::array<double, members>>(things[std::min(static_cast<std::size_t>(lane), things.size() - 1)]);
    for (std::size_t i = 0; i < members; ++i) wide[i].set(lane, one[i]);
  }
  return std::bit_cast<Thing<Lanes>>(wide);
}

constexpr auto unseen = [](std::size_t, const auto&, const auto&) {};

struct Run {
  uptake::Finish<double> finish;
  uptake::Water<double> water;
};

// At rest from the day's first hour, valves open `start_h` hours later, until all is in or the hours end.
inline Run run(const uptake::Day<double>& day, double start_h) {
  Run r{{}, uptake::at_rest(day)};
  const auto from = static_cast<std::size_t>(std::lround(start_h * static_cast<double>(day.steps_an_hour)));
  uptake::rest(day, 0, from, r.water, unseen);
  r.finish = uptake::drink(day, from, day.steps(), r.water, unseen);
  return r;
}

// Litres in `hours` after a start `start_h` hours into the day, however large the dose.
inline double volume(const Case& c, const uptake::Draw<double>& draw, double start_h, double hours) {
  auto d = day(c, draw);
  d.dose_l = 1e12;
  auto water = uptake::at_rest(d);
  const auto from = static_cast<std::size_t>(std::lround(start_h * static_cast<double>(d.steps_an_hour)));
  const auto until = from + static_cast<std::size_t>(std::lround(hours * static_cast<double>(d.steps_an_hour)));
  uptake::rest(d, 0, from, water, unseen);
  uptake::drink(d, from, until, water, unseen);
  return water.volume_l;
}

// The same for up to eight trees of different kinds and days at once. `any` is one of their subjects: it gives what all trees share.
inline std::vector<double> volumes(const std::vector<uptake::Day<double>>& days, const uptake::Subject& any, double start_h, double hours) {
  const auto of_each = [&](auto member) {
    std::vector<std::decay_t<decltype(member(days.front()))>> things;
    for (const auto& d : days) things.push_back(member(d));
    return things;
  };
  uptake::Day<Lanes> wide;
  wide.plant = side_by_side<uptake::Plant>(of_each([](const auto& d) { return d.plant; }));
  wide.draw = side_by_side<uptake::Draw>(of_each([](const auto& d) { return d.draw; }));
  wide.coefficients = uptake::coefficients(any, wide.draw, wide.plant);
  wide.dose_l = 1e12;
  for (std::size_t i = 0; i < days.front().hours.size(); ++i)
    wide.hours.push_back(side_by_side<uptake::Hour>(of_each([i](const auto& d) { return d.hours[i]; })));
  const auto step_at = [&](double h) { return static_cast<std::size_t>(std::lround(h * static_cast<double>(wide.steps_an_hour))); };
  auto water = uptake::at_rest(wide);
  uptake::rest(wide, 0, step_at(start_h), water, unseen);
  uptake::drink(wide, step_at(start_h), step_at(start_h + hours), water, unseen);
  std::vector<double> litres;
  for (std::size_t i = 0; i < days.size(); ++i) litres.push_back(water.volume_l[static_cast<int>(i)]);
  return litres;
}

}  // namespace bench
