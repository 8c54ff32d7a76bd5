#include "days/wait.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "days/scene.h"
#include "support/within.h"
#include "units/random.h"

using days::DayAnswer;
using days::Decider;
using days::Practice;
using namespace std::chrono_literals;

namespace {

constexpr std::size_t draws = 512;

// The figures of one day, made by hand: its cost in each draw is `cost_h` plus what its own temperature error of one standard deviation
// costs, plus what the tree costs on any day.
DayAnswer day(int ahead, double cost_h, double per_error_h, double tree_h = 2.0) {
  const units::LocalDay date = scene::july_14 + std::chrono::days{ahead};
  DayAnswer answer;
  answer.date = date;
  answer.arrive = scene::eastern().to_utc(units::LocalTime{date} + 7h);
  answer.off_site_by = scene::eastern().to_utc(units::LocalTime{date} + 19h);
  answer.expected_cost_h = cost_h;
  for (std::size_t i = 0; i < draws; ++i) {
    const auto z = [&](std::uint64_t stream) { return units::normal_quantile(units::hashed_uniform(9, stream, i)); };
    const auto own = static_cast<std::uint64_t>(10 * ahead);
    answer.cost_by_draw_h.push_back(cost_h + per_error_h * z(own + 1) + tree_h * z(0));
    answer.departures.push_back({2.0 * z(own + 1), z(own + 2), 0.2 * z(own + 3), 0.0});
  }
  const double off = answer.cost_by_draw_h.empty() ? 0.0 : [&] {
    double sum = 0.0;
    for (const double h : answer.cost_by_draw_h) sum += h / static_cast<double>(draws);
    return sum - cost_h;
  }();
  for (double& h : answer.cost_by_draw_h) h -= off;
  return answer;
}

Decider at(units::UtcTime now) { return {now, now, scene::eastern(), 1}; }
const units::UtcTime noon = scene::eastern().to_utc(units::LocalTime{scene::july_14} + 12h);

// Share of the variance of the temperature error of a day `ahead` that is told by the evening before the day `first`, from `noon` on.
double share(int ahead, int first) {
  const auto& p = scene::practice();
  // From noon to the middle of the work, 1 p.m.; and from the last forecast before the hour of decision.
  const double now_d = ahead + 1.0 / 24.0;
  const double then_d = ahead - first + 1.0 + (13.0 - p.decision.decide_h + p.decision.fresh_forecast_h) / 24.0;
  const double left = days::at_lead(p.weather_error.temperature_sd_c, then_d) / days::at_lead(p.weather_error.temperature_sd_c, now_d);
  return 1.0 - left * left;
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("two days of the same cost are worth waiting for, by as much as the news may tell them apart") {
    const auto wait = days::best_wait({day(5, 9.0, 2.0), day(6, 9.0, 1.5)}, scene::practice(), at(noon));
    REQUIRE(wait);
    CHECK(wait->decide_by == scene::eastern().to_utc(units::LocalTime{scene::july_14 + std::chrono::days{4}} + 17h));
    CHECK(wait->contenders == std::vector{scene::july_14 + std::chrono::days{5}, scene::july_14 + std::chrono::days{6}});
    // The mean of the lesser of two days that differ by a normal amount of spread s is s / sqrt(2 pi) below either.
    const double spread = std::sqrt(4.0 * share(5, 5) + 2.25 * share(6, 5));
    CHECK(wait->gain_h == within(spread / std::sqrt(2.0 * 3.14159265), 0.1));
    CHECK(days::worth_waiting({day(5, 9.0, 2.0), day(6, 9.0, 1.5)}, scene::practice(), at(noon)));
  }

  TEST_CASE("a day that is cheaper by far is booked now, and small gains are not said") {
    CHECK_FALSE(days::worth_waiting({day(5, 9.0, 2.0), day(6, 19.0, 1.5)}, scene::practice(), at(noon)));
    const std::vector close{day(5, 9.0, 0.3), day(6, 9.0, 0.3)};
    REQUIRE(days::best_wait(close, scene::practice(), at(noon)));
    CHECK_FALSE(days::worth_waiting(close, scene::practice(), at(noon)));
  }

  TEST_CASE("news is worth nothing where the forecast has no error, or none that a later one would mend") {
    const std::vector days{day(5, 9.0, 2.0), day(6, 9.0, 1.5)};
    Practice flat = scene::practice();
    for (days::ByLead* table :
         {&flat.weather_error.temperature_sd_c, &flat.weather_error.cloud_sd_pct, &flat.weather_error.rain_unresolved})
      std::fill(table->value.begin(), table->value.end(), table->value.front());
    CHECK_FALSE(days::best_wait(days, flat, at(noon)));
    std::vector<DayAnswer> sure{day(5, 9.0, 0.0), day(6, 9.2, 0.0)};
    for (DayAnswer& a : sure) a.departures.assign(draws, {});
    CHECK_FALSE(days::best_wait(sure, scene::practice(), at(noon)));
  }

  TEST_CASE("what the tree costs on every day is no news") {
    const auto with_tree = days::best_wait({day(5, 9.0, 2.0, 4.0), day(6, 9.0, 1.5, 4.0)}, scene::practice(), at(noon));
    const auto without = days::best_wait({day(5, 9.0, 2.0, 0.0), day(6, 9.0, 1.5, 0.0)}, scene::practice(), at(noon));
    REQUIRE(with_tree);
    REQUIRE(without);
    CHECK(with_tree->gain_h == within(without->gain_h, 1e-9));
  }

  TEST_CASE("the value of news is never negative, and noise alone is worth little") {
    double sum = 0.0;
    for (int n = 0; n < 40; ++n) {
      std::vector<DayAnswer> days;
      for (int ahead = 2; ahead < 9; ++ahead) {
        days.push_back(day(ahead, 9.0 + 0.2 * ((n * ahead) % 5), 0.0));
        for (std::size_t i = 0; i < draws; ++i)
          days.back().cost_by_draw_h[i] +=
              units::normal_quantile(units::hashed_uniform(static_cast<std::uint64_t>(n), static_cast<std::uint64_t>(ahead), i));
      }
      const auto wait = days::best_wait(days, scene::practice(), at(noon));
      if (wait) CHECK(wait->gain_h >= 0.0);
      sum += wait ? wait->gain_h : 0.0;
    }
    CHECK(sum / 40.0 < 0.02);  // hours; a fit that is not shrunk gives twice as much
  }

  TEST_CASE("no waiting for a forecast that comes too late, nor past the days that count") {
    // Tomorrow against a dear day: by noon there is no newer forecast this evening than the one from noon, if it takes six hours.
    CHECK_FALSE(days::best_wait({day(1, 9.0, 2.0), day(9, 30.0, 0.1)}, scene::practice(), at(noon)));
    // The same forecast grown old is worth replacing.
    Decider stale = at(noon);
    stale.issued = noon - 120h;
    CHECK(days::best_wait({day(1, 9.0, 2.0), day(2, 9.0, 2.0)}, scene::practice(), stale));
    // A day too dear to matter does not bring the decision forward.
    const auto wait = days::best_wait({day(2, 30.0, 0.5), day(5, 9.0, 2.0), day(6, 9.0, 2.0)}, scene::practice(), at(noon));
    REQUIRE(wait);
    CHECK(wait->decide_by == scene::eastern().to_utc(units::LocalTime{scene::july_14 + std::chrono::days{4}} + 17h));
  }

  TEST_CASE("of an ensemble the members' means are the news, and the draws within them are not") {
    const std::size_t members = 16;
    const auto ensemble = [&](double per_member_h) {
      std::vector<DayAnswer> days{day(5, 9.0, 0.0), day(6, 9.0, 0.0)};
      for (DayAnswer& a : days) a.departures.clear();
      for (std::size_t i = 0; i < draws; ++i) {
        const std::size_t member = i / units::Lanes::count % members;
        days[1].cost_by_draw_h[i] += (member % 2 == 0 ? per_member_h : -per_member_h) + 0.5 * (i % 2 == 0 ? 1.0 : -1.0);
      }
      Decider decider = at(noon);
      decider.members = members;
      return days::best_wait(days, scene::practice(), decider);
    };
    const auto wait = ensemble(2.0);
    REQUIRE(wait);
    // Half the members gain two hours, each as far as its day's error is told by then.
    CHECK(wait->gain_h == within(std::sqrt(share(6, 5)), 0.05));
    CHECK_FALSE(ensemble(0.0));
  }

  TEST_CASE("members that differ by the luck of their draws alone are no news, and real differences are told through such luck") {
    const std::size_t members = 16;
    int nothing_to_gain = 0;
    const auto mean_gain_h = [&](double per_member_h) {
      double sum_h = 0.0;
      constexpr int worlds = 40;
      for (std::uint64_t world = 0; world < worlds; ++world) {
        std::vector<DayAnswer> days{day(5, 9.0, 0.0), day(6, 9.0, 0.0)};
        for (DayAnswer& a : days) a.departures.clear();
        for (std::size_t i = 0; i < draws; ++i) {
          const std::size_t member = i / units::Lanes::count % members;
          days[1].cost_by_draw_h[i] =
              9.0 + (member % 2 == 0 ? per_member_h : -per_member_h) + 3.0 * units::normal_quantile(units::hashed_uniform(world, 77, i));
        }
        Decider decider = at(noon);
        decider.members = members;
        const auto wait = days::best_wait(days, scene::practice(), decider);
        sum_h += wait ? wait->gain_h : 0.0;
        nothing_to_gain += wait ? 0 : 1;
      }
      return sum_h / worlds;
    };
    CHECK(mean_gain_h(0.0) < 0.1);  // taken at its face such luck would gain 0.2 h
    CHECK(nothing_to_gain > 10);    // where the members differ by no more than their draws do, nothing at all
    CHECK(mean_gain_h(2.0) == within(std::sqrt(share(6, 5)), 0.05));
  }
}
