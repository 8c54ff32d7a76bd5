#include "days/forecast_error.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "days/scene.h"
#include "support/within.h"

using units::Lanes;
using uptake::Scenario;

namespace {

constexpr std::size_t blocks = 1024;
constexpr std::size_t days_ahead = 10;

const days::WeatherError& error() { return scene::practice().weather_error; }

const days::Outlook& ten_days() {
  static const days::Outlook outlook = scene::good_days(days_ahead);
  return outlook;
}

std::vector<Scenario> scenarios(const days::Outlook& outlook, std::size_t from, std::size_t until, std::size_t count,
                                std::uint64_t seed = 1) {
  return days::ForecastError{outlook, error(), count, seed}.scenarios(from, until);
}
const std::vector<Scenario>& drawn() {
  static const auto all = scenarios(ten_days(), 0, ten_days().known, blocks);
  return all;
}

// One figure of every draw in one hour.
template <class Member>
std::vector<double> sample(const std::vector<Scenario>& scenarios, std::size_t hour, Member member) {
  std::vector<double> values;
  for (const Scenario& scenario : scenarios)
    for (int lane = 0; lane < Lanes::count; ++lane) values.push_back((scenario.shifts[hour].*member)[lane]);
  return values;
}

double mean(const std::vector<double>& x) { return std::accumulate(x.begin(), x.end(), 0.0) / static_cast<double>(x.size()); }

double covariance(const std::vector<double>& x, const std::vector<double>& y) {
  const double mx = mean(x), my = mean(y);
  double sum = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) sum += (x[i] - mx) * (y[i] - my);
  return sum / static_cast<double>(x.size());
}
double sd(const std::vector<double>& x) { return std::sqrt(covariance(x, x)); }
double correlation(const std::vector<double>& x, const std::vector<double>& y) { return covariance(x, y) / (sd(x) * sd(y)); }

using Shift = uptake::Shift<Lanes>;
constexpr std::size_t noon(std::size_t day) { return 24 * day + 12; }

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("forecast error grows linearly between the days of its table and is flat outside") {
    const days::ByLead growth{{1.0, 3.0, 7.0}, {2.0, 2.6, 4.6}};
    CHECK(days::at_lead(growth, 0.0) == 2.0);
    CHECK(days::at_lead(growth, 1.0) == 2.0);
    CHECK(days::at_lead(growth, 2.0) == within(2.3, 1e-12));
    CHECK(days::at_lead(growth, 3.0) == within(2.6, 1e-12));
    CHECK(days::at_lead(growth, 6.0) == within(4.1, 1e-12));
    CHECK(days::at_lead(growth, 7.0) == 4.6);
    CHECK(days::at_lead(growth, 15.0) == 4.6);
  }

  TEST_CASE("members of an ensemble are kept whole and nothing is laid on top") {
    days::Outlook outlook = scene::good_days();
    outlook.courses.push_back(scene::rainy_days().courses.front());
    outlook.courses.push_back(scene::outlook(scene::damp()).courses.front());
    outlook.shifted = false;
    const auto scenarios = ::scenarios(outlook, 5, 40, 32);
    REQUIRE(scenarios.size() == 3);
    for (std::size_t m = 0; m < 3; ++m) {
      REQUIRE(scenarios[m].hours.size() == 35);
      REQUIRE(scenarios[m].shifts.size() == 35);
      for (std::size_t i = 0; i < 35; ++i) {
        CHECK(scenarios[m].hours[i].temp_c == outlook.courses[m][5 + i].temp_c);
        CHECK(scenarios[m].hours[i].rain_mm == outlook.courses[m][5 + i].rain_mm);
        CHECK(scenarios[m].shifts[i].temp_c[3] == 0.0);
        CHECK(scenarios[m].shifts[i].dew_point_c[3] == 0.0);
        CHECK(scenarios[m].shifts[i].cloud[3] == 0.0);
        CHECK(scenarios[m].shifts[i].rain_mm[3] == 0.0);
      }
    }
  }

  TEST_CASE("an hour's error is the same for any window and any number of draws, and another for another seed") {
    const auto& outlook = ten_days();
    const auto one = ::scenarios(outlook, 24, 96, 8, 5), other = ::scenarios(outlook, 48, 120, 16, 5);
    const auto reseeded = ::scenarios(outlook, 24, 96, 8, 6);
    REQUIRE(one.size() == 8);
    REQUIRE(other.size() == 16);
    for (std::size_t b = 0; b < 8; ++b)
      for (int lane = 0; lane < Lanes::count; ++lane) {
        CHECK(one[b].shifts[30].temp_c[lane] == other[b].shifts[6].temp_c[lane]);
        CHECK(one[b].shifts[30].dew_point_c[lane] == other[b].shifts[6].dew_point_c[lane]);
        CHECK(one[b].shifts[30].cloud[lane] == other[b].shifts[6].cloud[lane]);
        CHECK(one[b].shifts[30].rain_mm[lane] == other[b].shifts[6].rain_mm[lane]);
        CHECK(one[b].shifts[30].temp_c[lane] != reseeded[b].shifts[30].temp_c[lane]);
      }
  }

  TEST_CASE("errors change little from hour to hour, at the hour of issue and at midnight too") {
    // Knots half a day apart: an hour is a twelfth of the way from one normal deviate to the next. Cloud as long as its mean stays.
    const auto skilled_h = static_cast<std::size_t>(24.0 * error().cloud_sd_pct.lead_d.back());
    double temp = 0.0, dew = 0.0, cloud = 0.0;
    for (const Scenario& scenario : drawn())
      for (std::size_t hour = 1; hour < ten_days().known; ++hour)
        for (int lane = 0; lane < Lanes::count; ++lane) {
          const Shift &now = scenario.shifts[hour], &before = scenario.shifts[hour - 1];
          temp = std::max(temp, std::abs(now.temp_c[lane] - before.temp_c[lane]));
          dew = std::max(dew, std::abs(now.dew_point_c[lane] - before.dew_point_c[lane]));
          if (hour < skilled_h) cloud = std::max(cloud, std::abs(now.cloud[lane] - before.cloud[lane]));
        }
    CHECK(temp < 2.0);
    CHECK(dew < 2.5);
    CHECK(cloud < 0.2);
  }

  TEST_CASE("rain that fell before the issue is known, and so is that of no draw changed") {
    days::Outlook outlook = scene::rainy_days(4);
    outlook.issued = outlook.begins(30);
    const auto shifts = scenarios(outlook, 0, 96, 1).front().shifts;
    for (std::size_t hour = 0; hour < 30; ++hour) CHECK(shifts[hour].rain_mm[2] == 0.0);
    for (std::size_t hour = 30; hour < 96; ++hour) CHECK(shifts[hour].rain_mm[2] != 0.0);
  }

  // 8192 draws: the standard error of a standard deviation is 0.8 %, of a correlation at most 0.011.
  TEST_CASE("errors have no bias, and the spread of the table at their lead") {
    const auto& scenarios = drawn();
    // At knots (noon) and halfway between two (six o'clock); an hour's middle lies half an hour behind its begin.
    for (std::size_t hour = 6; hour < 24 * days_ahead; hour += 6) {
      CAPTURE(hour);
      const double lead = (static_cast<double>(hour) + 0.5) / 24.0;
      const double sd_t = days::at_lead(error().temperature_sd_c, lead), sd_cloud = days::at_lead(error().cloud_sd_pct, lead) / 100.0;
      const auto t = sample(scenarios, hour, &Shift::temp_c), dew = sample(scenarios, hour, &Shift::dew_point_c);
      const auto cloud = sample(scenarios, hour, &Shift::cloud);
      if (lead < error().cloud_sd_pct.lead_d.back()) CHECK(mean(cloud) == within(0.0, 0.045 * sd_cloud));
      CHECK(mean(t) == within(0.0, 0.045 * sd_t));
      CHECK(sd(t) == within(sd_t, 0.03 * sd_t));
      CHECK(sd(dew) == within(sd_t, 0.03 * sd_t));
      CHECK(sd(cloud) == within(sd_cloud, 0.03 * sd_cloud));
    }
    CHECK(sd(sample(scenarios, noon(7), &Shift::temp_c)) > 2.0 * sd(sample(scenarios, noon(1), &Shift::temp_c)));
  }

  TEST_CASE("dew point goes with temperature as the parameter says, cloud goes its own way") {
    const auto& scenarios = drawn();
    for (const std::size_t day : {0u, 3u, 9u}) {
      const auto t = sample(scenarios, noon(day), &Shift::temp_c), cloud = sample(scenarios, noon(day), &Shift::cloud);
      CHECK(correlation(t, sample(scenarios, noon(day), &Shift::dew_point_c)) == within(error().dew_point_correlation, 0.03));
      CHECK(correlation(t, cloud) == within(0.0, 0.045));
    }
  }

  TEST_CASE("errors of one day carry over to the next and fade") {
    const auto& scenarios = drawn();
    const double rho = error().day_to_day;
    const auto check = [&](auto member) {
      // At a knot the correlation is the parameter's, between two at most (1 + sqrt rho) sqrt rho / 2.
      const auto third = sample(scenarios, 24 * 3, member), half = sample(scenarios, 24 * 3 + 6, member);
      CHECK(correlation(third, sample(scenarios, 24 * 4, member)) == within(rho, 0.05));
      CHECK(correlation(third, sample(scenarios, 24 * 5, member)) == within(rho * rho, 0.06));
      CHECK(correlation(half, sample(scenarios, 24 * 4 + 6, member)) == within((1.0 + std::sqrt(rho)) * std::sqrt(rho) / 2.0, 0.03));
    };
    check(&Shift::temp_c);
    check(&Shift::dew_point_c);
    check(&Shift::cloud);
  }

  TEST_CASE("beyond the last lead of its table cloud goes over to the sky's climate") {
    const auto& scenarios = drawn();  // under a clear sky
    const double usual = error().cloud_usual_pct / 100.0;
    REQUIRE(error().cloud_usual_by_d == 10.0);
    CHECK(mean(sample(scenarios, noon(6), &Shift::cloud)) == within(0.0, 0.02));
    const double lead = 8.5 + 0.5 / 24.0, from = error().cloud_sd_pct.lead_d.back();
    CHECK(mean(sample(scenarios, noon(8), &Shift::cloud)) == within(usual * (lead - from) / (10.0 - from), 0.02));
  }

  TEST_CASE("a forecast's amount and chance of rain are read with the mean of the amount kept") {
    const auto& e = error();
    const auto check = [&](std::optional<double> amount, std::optional<double> chance, double lead, days::RainOdds expected) {
      const auto odds = days::rain_odds(e, amount, chance, lead);
      CHECK(odds.chance == within(expected.chance, 1e-12));
      CHECK(odds.amount_mm == within(expected.amount_mm, 1e-12));
    };
    check(0.6, 30.0, 2.0, {0.3, 2.0});
    check(0.6, 100.0, 2.0, {1.0, 0.6});
    check(0.6, 0.0, 2.0, {e.rain_least_chance, 0.6 / e.rain_least_chance});
    check(0.6, std::nullopt, 3.0, {days::at_lead(e.rain_hit, 3.0), 0.6 / days::at_lead(e.rain_hit, 3.0)});
    check(0.0, 30.0, 2.0, {0.3, e.rain_hour_mm});
    check(0.0, 0.0, 2.0, {0.0, e.rain_hour_mm});
    check(0.0, std::nullopt, 5.0, {days::at_lead(e.rain_missed, 5.0), e.rain_hour_mm});
    check(std::nullopt, 30.0, 2.0, {0.3, e.rain_hour_mm});
    check(std::nullopt, std::nullopt, 2.0, {e.rain_usual, e.rain_hour_mm});
  }

  // 8192 draws: the standard error of a share of 0.3 is 0.005.
  TEST_CASE("a chance of rain of 30 % makes 3 draws in 10 wet in the hour, in spells and not by flickering hours") {
    days::Outlook outlook = scene::good_days(6);
    for (auto& signs : outlook.signs) signs.rain_chance_pct = 30.0;
    const auto scenarios = ::scenarios(outlook, 0, outlook.known, blocks);
    for (const std::size_t hour : {3u, 14u, 39u, 60u, 110u}) {
      const auto rain = sample(scenarios, hour, &Shift::rain_mm);
      const auto wet = std::count_if(rain.begin(), rain.end(), [](double mm) { return mm > 0.0; });
      CHECK(static_cast<double>(wet) / static_cast<double>(rain.size()) == within(0.3, 0.02));
      // Nothing is forecast: what falls is the parameter's on average.
      CHECK(mean(rain) == within(0.3 * error().rain_hour_mm, 0.01));
    }
    double changes = 0.0, afternoons = 0.0;
    for (const Scenario& scenario : scenarios)
      for (int lane = 0; lane < Lanes::count; ++lane) {
        bool any = false;
        for (std::size_t hour = 1; hour < 144; ++hour)
          changes += (scenario.shifts[hour].rain_mm[lane] > 0.0) != (scenario.shifts[hour - 1].rain_mm[lane] > 0.0) ? 1.0 : 0.0;
        for (std::size_t hour = 24 + 12; hour < 24 + 18; ++hour) any = any || scenario.shifts[hour].rain_mm[lane] > 0.0;
        afternoons += any ? 1.0 : 0.0;
      }
    CHECK(changes / (8.0 * blocks) / 6.0 < 1.0);  // a day; hours on their own would make 10
    CHECK(afternoons / (8.0 * blocks) < 0.4);     // hours on their own would wet 0.88 of them
    CHECK(afternoons / (8.0 * blocks) > 0.3);
  }

  TEST_CASE("rain is as much on the whole as forecast, certain or likely, and none where none can be") {
    days::Outlook outlook = scene::rainy_days(6);
    for (std::size_t hour = 24; hour < 48; ++hour) outlook.signs[hour].rain_chance_pct = 100.0;
    for (std::size_t hour = 48; hour < 72; ++hour) outlook.signs[hour].rain_chance_pct = 40.0;
    for (std::size_t hour = 72; hour < 96; ++hour) {
      outlook.courses.front()[hour].rain_mm = 0.0;
      outlook.signs[hour].rain_chance_pct = 0.0;
    }
    const auto scenarios = ::scenarios(outlook, 0, 144, blocks);
    for (const std::size_t hour : {5u, 30u, 60u, 130u}) {
      // Spread 0.8 in the logarithm and chances from 0.4 on: a draw's rain has a standard deviation of up to 3.8 mm, the mean one of 0.04.
      const auto rain = sample(scenarios, hour, &Shift::rain_mm);
      CHECK(mean(rain) == within(0.0, 0.13));
      CHECK(*std::min_element(rain.begin(), rain.end()) >= -2.0);
    }
    std::vector<double> logs;
    for (const double mm : sample(scenarios, 36, &Shift::rain_mm)) logs.push_back(std::log(2.0 + mm));
    CHECK(sd(logs) == within(error().rain_ln_sd, 0.03 * error().rain_ln_sd));
    for (const double mm : sample(scenarios, 80, &Shift::rain_mm)) CHECK(mm == 0.0);
  }

  TEST_CASE("a draw that rains is likelier dull than its forecast") {
    days::Outlook outlook = scene::good_days(3);
    for (auto& signs : outlook.signs) signs.rain_chance_pct = 30.0;
    const auto scenarios = ::scenarios(outlook, 0, 72, blocks);
    std::vector<double> wet, cloud = sample(scenarios, 36, &Shift::cloud);
    for (const double mm : sample(scenarios, 36, &Shift::rain_mm)) wet.push_back(mm > 0.0 ? 1.0 : 0.0);
    // Cut at its 70 % quantile a normal variable keeps 0.759 of its correlation: density there over sqrt(0.3 x 0.7).
    CHECK(correlation(wet, cloud) == within(0.759 * error().rain_with_cloud, 0.03));
  }

  TEST_CASE("departures are a draw's errors in the mean over the hours, and its share of hours with rain") {
    days::Outlook outlook = scene::good_days(3);
    for (auto& signs : outlook.signs) signs.rain_chance_pct = 30.0;
    const days::ForecastError errors{outlook, error(), 4, 1};
    const auto scenarios = errors.scenarios(30, 40);
    const auto departures = errors.departures(30, 40, 30);
    REQUIRE(departures.size() == 30);
    for (const std::size_t draw : {0u, 13u, 29u}) {
      double temp = 0.0, dew = 0.0, cloud = 0.0, wet = 0.0;
      for (const auto& shift : scenarios[draw / 8].shifts) {
        const int lane = static_cast<int>(draw % 8);
        temp += shift.temp_c[lane];
        dew += shift.dew_point_c[lane];
        cloud += shift.cloud[lane];
        wet += shift.rain_mm[lane] > 0.0 ? 1.0 : 0.0;
      }
      CHECK(departures[draw].temp_c == within(temp / 10.0, 1e-12));
      CHECK(departures[draw].dew_point_c == within(dew / 10.0, 1e-12));
      CHECK(departures[draw].cloud == within(cloud / 10.0, 1e-12));
      CHECK(departures[draw].rain_share == within(wet / 10.0, 1e-12));
    }
    outlook.shifted = false;
    CHECK(days::ForecastError{outlook, error(), 4, 1}.departures(30, 40, 30).empty());
  }

  TEST_CASE("two services share the draws, each with its own rain, so that what they disagree on widens the weather") {
    days::Outlook outlook = scene::good_days(2);
    outlook.courses.push_back(outlook.courses.front());
    for (auto& hour : outlook.courses[1]) {
      hour.temp_c -= 6.0;
      hour.rain_mm = 1.0;
    }
    outlook.rain_said = {std::vector<days::RainSaid>(outlook.hours(), {true, 0.0}),
                         std::vector<days::RainSaid>(outlook.hours(), {true, 100.0})};
    const auto both = scenarios(outlook, 0, outlook.known, 256);
    outlook.courses.pop_back();
    outlook.rain_said.pop_back();
    const auto one = scenarios(outlook, 0, outlook.known, 256);
    const auto temps = [](const std::vector<Scenario>& all) {
      std::vector<double> values;
      for (const Scenario& scenario : all)
        for (int lane = 0; lane < Lanes::count; ++lane)
          values.push_back(scenario.hours[noon(1)].temp_c + scenario.shifts[noon(1)].temp_c[lane]);
      return values;
    };
    // Two equal halves 6 C apart add 3 C squared to the variance.
    CHECK(covariance(temps(both), temps(both)) == within(covariance(temps(one), temps(one)) + 9.0, 0.3));
    int wet = 0;
    for (const Scenario& scenario : both)
      for (int lane = 0; lane < Lanes::count; ++lane)
        wet += scenario.hours[noon(1)].rain_mm + scenario.shifts[noon(1)].rain_mm[lane] > 0.0 ? 1 : 0;
    CHECK(wet == 256 * Lanes::count / 2);

    outlook.courses.push_back(outlook.courses.front());
    for (auto& hour : outlook.courses[1]) hour.temp_c -= 6.0;
    outlook.rain_said.push_back(outlook.rain_said.front());
    const auto departures = days::ForecastError{outlook, error(), 4, 1}.departures(30, 40, 32);
    const auto alone = days::ForecastError{scene::good_days(2), error(), 4, 1}.departures(30, 40, 32);
    CHECK(departures[0].temp_c == within(alone[0].temp_c, 1e-9));
    CHECK(departures[8].temp_c == within(alone[8].temp_c - 6.0, 1e-9));
  }
}
