#include "days/reasons.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "air/humidity.h"
#include "days/clock.h"
#include "days/shapley.h"
#include "uptake/ensemble.h"

namespace days {
namespace {

using units::Lanes;
using uptake::HourWeather;

constexpr std::array all_factors{Factor::soil_water, Factor::dryness,     Factor::sky,
                                 Factor::wet_leaves, Factor::temperature, Factor::leaf_state};
static_assert(all_factors.size() == factor_count);

// The factors that are as on the day.
class Set {
 public:
  explicit Set(std::size_t bits) : bits_(bits) {}
  [[nodiscard]] bool has(Factor factor) const { return (bits_ >> static_cast<unsigned>(factor) & 1U) != 0; }

 private:
  std::size_t bits_;
};

double vpd_kpa(const HourWeather& w) {
  return air::vapour_pressure_deficit(air::saturation_pressure(units::Celsius{w.temp_c}),
                                      air::saturation_pressure(units::Celsius{w.dew_point_c}))
      .value;
}

// The dew point that gives a deficit at a temperature.
double dew_point_at(double temp_c, double deficit_kpa) {
  constexpr double driest_kpa = 0.01;
  const double vapour = air::saturation_pressure(units::Celsius{temp_c}).value - deficit_kpa;
  return air::dew_point(units::Kilopascals{std::max(vapour, driest_kpa)}).value;
}

// An hour with the factors of `set` as on the day and the others as on the good one. Temperature and dryness are one pair of numbers: the
// air has the temperature of one day and the deficit of one day, whichever was put right first.
HourWeather mixed(const HourWeather& day, const HourWeather& good, Set set) {
  HourWeather w = day;
  if (!set.has(Factor::soil_water)) {
    w.rew = good.rew;
    w.saturated_h = good.saturated_h;
  }
  if (!set.has(Factor::sky)) w.shortwave_w_m2 = good.shortwave_w_m2;
  if (!set.has(Factor::wet_leaves)) {
    w.rain_mm = 0.0;
    w.reference_mm = std::max(w.reference_mm, 0.0);  // no dew either
  }
  if (!set.has(Factor::leaf_state)) w.leaf_share = good.leaf_share;
  const HourWeather& warmth = set.has(Factor::temperature) ? day : good;
  const HourWeather& dryness = set.has(Factor::dryness) ? day : good;
  w.temp_c = warmth.temp_c;
  w.soil_temp_c = warmth.soil_temp_c;
  w.dew_point_c = &warmth == &dryness ? warmth.dew_point_c : dew_point_at(w.temp_c, vpd_kpa(dryness));
  return w;
}

bool differs(Factor factor, const HourWeather& day, const HourWeather& good) {
  switch (factor) {
    case Factor::soil_water:
      return day.rew != good.rew || day.saturated_h != good.saturated_h;
    case Factor::dryness:
      return vpd_kpa(day) != vpd_kpa(good);
    case Factor::sky:
      return day.shortwave_w_m2 != good.shortwave_w_m2;
    case Factor::wet_leaves:
      return day.rain_mm > 0.0 || day.reference_mm < 0.0;
    case Factor::temperature:
      return day.temp_c != good.temp_c || day.soil_temp_c != good.soil_temp_c;
    case Factor::leaf_state:
      break;
  }
  return day.leaf_share != good.leaf_share;
}

std::vector<Factor> differing(std::span<const HourWeather> day, std::span<const HourWeather> good) {
  std::vector<Factor> found;
  for (const Factor factor : all_factors)
    for (std::size_t i = 0; i < day.size(); ++i)
      if (differs(factor, day[i], good[i])) {
        found.push_back(factor);
        break;
      }
  return found;
}

// One course of the weather for every set of `factors`, in the order of days/shapley.h.
std::vector<uptake::Scenario> courses(const std::vector<Factor>& factors, std::span<const HourWeather> day,
                                      std::span<const HourWeather> good) {
  std::vector<uptake::Scenario> all;
  for (std::size_t parts = 0; parts < std::size_t{1} << factors.size(); ++parts) {
    std::size_t bits = 0;
    for (std::size_t i = 0; i < factors.size(); ++i) bits |= (parts >> i & 1U) << static_cast<unsigned>(factors[i]);
    uptake::Scenario course{{}, std::vector<uptake::Shift<Lanes>>(day.size())};
    for (std::size_t i = 0; i < day.size(); ++i) course.hours.push_back(mixed(day[i], good[i], Set{bits}));
    all.push_back(std::move(course));
  }
  return all;
}

}  // namespace

Reasons reasons(const uptake::Subject& subject, const soil::RewCurve& curve, const uptake::Draw<Lanes>& draws,
                std::span<const HourWeather> day, std::span<const HourWeather> reference, double wet_mm, double start_h) {
  std::vector<HourWeather> own(day.begin(), day.end());
  own.front().rain_mm += wet_mm;  // what lies on the leaves goes with the rain: with the factor, or away
  const std::vector<Factor> factors = differing(own, reference);
  const std::vector<uptake::Scenario> sets = courses(factors, own, reference);

  // The same block of draws for every set, side by side.
  uptake::Subject dose_only = subject;
  dose_only.flush = units::Litres{0.0};
  uptake::Ensemble game{dose_only, curve, std::vector<uptake::Draw<Lanes>>(sets.size(), draws), sets.size() * Lanes::count};
  game.set_hours(sets, 0.0);
  const std::vector<double> dose_h = game.finish(start_h, horizon_h).dose_h;
  const double longest_h = std::min(horizon_h, static_cast<double>(own.size()) - start_h);
  std::vector<double> worth(sets.size(), 0.0);
  for (std::size_t i = 0; i < dose_h.size(); ++i) worth[i / Lanes::count] += std::min(dose_h[i], longest_h) / Lanes::count;

  Reasons found{worth.back(), worth.front(), {}};
  const std::vector<double> shares = shapley(worth);
  for (std::size_t i = 0; i < factors.size(); ++i) found.by_factor.push_back({factors[i], shares[i]});
  for (const Factor factor : all_factors)
    if (std::ranges::find(factors, factor) == factors.end()) found.by_factor.push_back({factor, 0.0});
  std::stable_sort(found.by_factor.begin(), found.by_factor.end(),
                   [](const Reason& a, const Reason& b) { return std::abs(a.hours) > std::abs(b.hours); });
  return found;
}

}  // namespace days
