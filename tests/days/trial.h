// Trials of the chance a day is given: against plain pseudo-random draws of tree, soil, weather and pace, and against worlds drawn so.
// Nothing here is low-discrepancy: every draw has a seed of its own.
#pragma once
#include <array>
#include <bit>
#include <cmath>
#include <vector>

#include "days/forecast_error.h"
#include "days/job_time.h"
#include "days/scene.h"
#include "units/random.h"

namespace trial {

using units::Lanes;

struct Case {
  days::TreeCase tree;
  days::Outlook outlook;  // of one day
  days::Settings settings;
};

// The n-th of many: trees of 40 to 170 cm, soils from dry to moist and known to 0.1, cool to hot, clear to dull, dry to likely wet, up to
// nine days ahead; the start searched or fixed.
inline Case spread_case(std::uint64_t n) {
  const auto between = [&](std::uint64_t what, double low, double high) {
    return low + (high - low) * units::hashed_uniform(401, what, n);
  };
  days::DayKind kind = scene::practice().good_day;
  kind.rew = between(0, 0.1, 1.0);
  kind.cloud_pct = between(1, 0.0, 100.0);
  kind.temp_high_c = between(2, 20.0, 33.0);
  kind.temp_low_c = kind.temp_high_c - 11.0;
  kind.rh_at_high_pct = between(3, 30.0, 70.0);
  days::Outlook outlook = scene::outlook(kind);
  const double chance = std::max(0.0, between(4, -60.0, 80.0));
  for (auto& signs : outlook.signs) signs.rain_chance_pct = chance;
  for (auto& hour : outlook.courses.front()) hour.rew_sd = 0.1;
  outlook.issued -= std::chrono::minutes{std::lround(between(5, 0.0, 9.0) * 1440.0)};
  const double start = 7.0 + std::floor(between(6, 0.0, 6.0));
  return {scene::elm(between(7, 40.0, 170.0)), outlook, n % 2 == 0 ? scene::settings() : scene::starting_at(start)};
}

using DrawLanes = std::array<Lanes, sizeof(uptake::Draw<Lanes>) / sizeof(Lanes)>;

// Eight trees in eight weathers, each by a seed of its own.
struct Eight {
  uptake::Draw<Lanes> draw{};
  uptake::Scenario scenario;
};

inline Eight plain_eight(const Case& c, std::uint64_t number) {
  Eight eight;
  DrawLanes together{};
  for (int lane = 0; lane < Lanes::count; ++lane) {
    const std::uint64_t seed = 1'000'000 + number * Lanes::count + static_cast<std::uint64_t>(lane);
    const auto one = std::bit_cast<DrawLanes>(uptake::sample_draws(c.tree.subject.source, 1, seed).front());
    for (std::size_t i = 0; i < together.size(); ++i) together[i].set(lane, one[i][0]);
    auto weather = days::ForecastError{c.outlook, c.settings.practice.weather_error, 1, seed}.scenarios(0, 48).front();
    if (lane == 0) eight.scenario = weather;
    for (std::size_t hour = 0; hour < 48; ++hour) {
      auto& to = eight.scenario.shifts[hour];
      const auto& from = weather.shifts[hour];
      to.temp_c.set(lane, from.temp_c[0]);
      to.dew_point_c.set(lane, from.dew_point_c[0]);
      to.cloud.set(lane, from.cloud[0]);
      to.rain_mm.set(lane, from.rain_mm[0]);
    }
  }
  eight.draw = std::bit_cast<uptake::Draw<Lanes>>(together);
  return eight;
}

// What happened in worlds drawn for an arrival: hours of the dose, and whether it was in before valves had to be shut.
struct Worlds {
  std::vector<double> uptake_h;
  std::vector<bool> in_time;
};

// `eights` times eight worlds from number `first` on, for the arrival that `answer` chose.
inline Worlds worlds(const Case& c, const days::DayAnswer& answer, std::uint64_t first, std::size_t eights) {
  const auto hours = [](units::UtcTime from, units::UtcTime until) {
    return std::chrono::duration<double, std::ratio<3600>>(until - from).count();
  };
  const double before = days::job_time(c.tree, c.settings.practice.phases).before().value;
  const double shut = hours(answer.arrive, answer.valves_shut_by);
  std::vector<uptake::Draw<Lanes>> draws;
  std::vector<uptake::Scenario> scenarios;
  for (std::size_t i = 0; i < eights; ++i) {
    Eight eight = plain_eight(c, first + i);
    draws.push_back(eight.draw);
    scenarios.push_back(std::move(eight.scenario));
  }
  uptake::Ensemble ensemble{c.tree.subject, c.tree.curve, draws, eights * Lanes::count};
  ensemble.set_hours(scenarios, 0.0);
  Worlds result;
  result.uptake_h = ensemble.finish(hours(c.outlook.begins(0), answer.valves_open), 24.0).dose_h;
  for (std::size_t i = 0; i < result.uptake_h.size(); ++i) {
    const double pace = std::exp(c.settings.practice.phases.ln_sd * draws[i / Lanes::count].pace_z[static_cast<int>(i % Lanes::count)]);
    result.in_time.push_back(pace * before + result.uptake_h[i] <= shut);
  }
  return result;
}

struct Calibration {
  struct Bin {
    double worlds = 0.0, chance = 0.0, in_time = 0.0, variance = 0.0;  // sums: of chances, of successes, of p (1 - p)
    [[nodiscard]] double deviation() const { return variance > 0.0 ? (in_time - chance) / std::sqrt(variance) : 0.0; }
  };
  std::array<Bin, 10> bins{};
  double covered = 0.0, ranged = 0.0;  // worlds inside p10 to p90, of answers that have both
  [[nodiscard]] double coverage() const { return covered / ranged; }
};

// Cases from number `first` on, each answered once and met by `eights` times eight worlds.
inline Calibration calibration(std::uint64_t first, std::size_t cases, std::size_t eights, std::size_t draws = 256) {
  Calibration result;
  for (std::uint64_t n = first; n < first + cases; ++n) {
    const Case c = spread_case(n);
    const auto answer = scene::answer(c.tree, c.outlook, c.settings, draws);
    const Worlds met = worlds(c, answer, n * 10'000, eights);
    const double p = answer.chance_to_finish;
    auto& bin = result.bins[std::min<std::size_t>(9, static_cast<std::size_t>(10.0 * p))];
    for (std::size_t i = 0; i < met.in_time.size(); ++i) {
      bin.worlds += 1.0;
      bin.chance += p;
      bin.variance += p * (1.0 - p);
      bin.in_time += met.in_time[i] ? 1.0 : 0.0;
      if (!answer.uptake_h.p10 || !answer.uptake_h.p90) continue;
      result.ranged += 1.0;
      result.covered += met.uptake_h[i] >= *answer.uptake_h.p10 && met.uptake_h[i] <= *answer.uptake_h.p90 ? 1.0 : 0.0;
    }
  }
  return result;
}

struct Convergence {
  double error = 0.0, stated = 0.0;               // root mean squares: chance less truth (the truth's own error taken off), `mc_error`
  double doubling = 0.0, largest_doubling = 0.0;  // of the change of the chance from `draws` to twice as many
  double truth_error = 0.0;                       // standard error of the truth, root mean square
};

// Starts are fixed: a chance of another start is another chance.
inline Convergence convergence(std::uint64_t first, std::size_t cases, std::size_t eights, std::size_t draws = 256) {
  Convergence sum;
  const auto n = static_cast<double>(cases);
  double counted = 0.0;
  for (std::uint64_t number = 2 * first + 1; number < 2 * (first + cases); number += 2) {
    const Case c = spread_case(number);
    const auto answer = scene::answer(c.tree, c.outlook, c.settings, draws);
    const double doubled = scene::answer(c.tree, c.outlook, c.settings, 2 * draws).chance_to_finish;
    const double change = std::abs(doubled - answer.chance_to_finish);
    sum.doubling += change * change / n;
    sum.largest_doubling = std::max(sum.largest_doubling, change);
    sum.stated += answer.mc_error * answer.mc_error / n;
    counted = static_cast<double>(eights * Lanes::count);
    double in_time = 0.0;
    constexpr std::size_t chunk = 125;
    for (std::size_t done = 0; done < eights; done += chunk) {
      const Worlds met = worlds(c, answer, number * 10'000 + done, std::min(chunk, eights - done));
      for (const bool yes : met.in_time) in_time += yes ? 1.0 : 0.0;
    }
    const double truth = in_time / counted, noise = truth * (1.0 - truth) / counted;
    sum.truth_error += noise / n;
    sum.error += ((answer.chance_to_finish - truth) * (answer.chance_to_finish - truth) - noise) / n;
  }
  return {std::sqrt(std::max(sum.error, 0.0)), std::sqrt(sum.stated), std::sqrt(sum.doubling), sum.largest_doubling,
          std::sqrt(sum.truth_error)};
}

}  // namespace trial
