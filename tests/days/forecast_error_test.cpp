#include "days/forecast_error.h"

#include <doctest/doctest.h>

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

std::vector<Scenario> drawn(std::uint64_t seed = 1) { return days::scenarios(ten_days(), error(), 0, ten_days().known, blocks, seed); }

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
    const days::ErrorGrowth growth{{1.0, 3.0, 7.0}, {2.0, 2.6, 4.6}};
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
    const auto scenarios = days::scenarios(outlook, error(), 5, 40, 32, 1);
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
        CHECK(scenarios[m].shifts[i].rain_factor[3] == 1.0);
      }
    }
  }

  TEST_CASE("an hour's error is the same for any window and any number of draws, and another for another seed") {
    const auto& outlook = ten_days();
    const auto one = days::scenarios(outlook, error(), 24, 96, 8, 5), other = days::scenarios(outlook, error(), 48, 120, 16, 5);
    const auto reseeded = days::scenarios(outlook, error(), 24, 96, 8, 6);
    REQUIRE(one.size() == 8);
    REQUIRE(other.size() == 16);
    for (std::size_t b = 0; b < 8; ++b)
      for (int lane = 0; lane < Lanes::count; ++lane) {
        CHECK(one[b].shifts[30].temp_c[lane] == other[b].shifts[6].temp_c[lane]);
        CHECK(one[b].shifts[30].dew_point_c[lane] == other[b].shifts[6].dew_point_c[lane]);
        CHECK(one[b].shifts[30].cloud[lane] == other[b].shifts[6].cloud[lane]);
        CHECK(one[b].shifts[30].rain_factor[lane] == other[b].shifts[6].rain_factor[lane]);
        CHECK(one[b].shifts[30].temp_c[lane] != reseeded[b].shifts[30].temp_c[lane]);
      }
  }

  TEST_CASE("one lead day has one error, and hours before the issue have that of the first") {
    days::Outlook outlook = scene::good_days(4);
    outlook.issued = outlook.begins(30);
    const auto shifts = days::scenarios(outlook, error(), 0, 96, 1, 1).front().shifts;
    for (std::size_t hour = 0; hour < 54; ++hour) CHECK(shifts[hour].temp_c[2] == shifts[30].temp_c[2]);
    for (std::size_t hour = 54; hour < 78; ++hour) CHECK(shifts[hour].temp_c[2] == shifts[54].temp_c[2]);
    CHECK(shifts[54].temp_c[2] != shifts[30].temp_c[2]);
  }

  // 8192 draws: the standard error of a standard deviation is 0.8 %, of a correlation at most 0.011.
  TEST_CASE("errors have no bias, and the spread of the table at the middle of their lead day") {
    const auto scenarios = drawn();
    for (std::size_t day = 0; day < days_ahead; ++day) {
      CAPTURE(day);
      const double lead = static_cast<double>(day) + 0.5;
      const double sd_t = days::at_lead(error().temperature_c, lead), sd_cloud = days::at_lead(error().cloud_pct, lead) / 100.0;
      const auto t = sample(scenarios, noon(day), &Shift::temp_c), dew = sample(scenarios, noon(day), &Shift::dew_point_c);
      const auto cloud = sample(scenarios, noon(day), &Shift::cloud);
      CHECK(mean(t) == within(0.0, 0.045 * sd_t));
      CHECK(sd(t) == within(sd_t, 0.03 * sd_t));
      CHECK(sd(dew) == within(sd_t, 0.03 * sd_t));
      CHECK(sd(cloud) == within(sd_cloud, 0.03 * sd_cloud));
    }
    CHECK(sd(sample(scenarios, noon(7), &Shift::temp_c)) > 2.0 * sd(sample(scenarios, noon(1), &Shift::temp_c)));
  }

  TEST_CASE("dew point goes with temperature as the parameter says, cloud and rain go their own ways") {
    const auto scenarios = drawn();
    for (const std::size_t day : {0u, 3u, 9u}) {
      const auto t = sample(scenarios, noon(day), &Shift::temp_c), cloud = sample(scenarios, noon(day), &Shift::cloud);
      CHECK(correlation(t, sample(scenarios, noon(day), &Shift::dew_point_c)) == within(error().dew_point_correlation, 0.03));
      CHECK(correlation(t, cloud) == within(0.0, 0.045));
      CHECK(correlation(t, sample(scenarios, noon(day), &Shift::rain_factor)) == within(0.0, 0.045));
      CHECK(correlation(cloud, sample(scenarios, noon(day), &Shift::rain_factor)) == within(0.0, 0.045));
    }
  }

  TEST_CASE("errors of one day carry over to the next and fade in powers") {
    const auto scenarios = drawn();
    const double rho = error().day_to_day;
    const auto check = [&](auto member) {
      const auto third = sample(scenarios, noon(3), member);
      CHECK(correlation(third, sample(scenarios, noon(4), member)) == within(rho, 0.03));
      CHECK(correlation(third, sample(scenarios, noon(5), member)) == within(rho * rho, 0.04));
    };
    check(&Shift::temp_c);
    check(&Shift::dew_point_c);
    check(&Shift::cloud);
  }

  TEST_CASE("rain is as much on the whole as forecast, whatever its spread") {
    const auto scenarios = drawn();
    for (const std::size_t day : {0u, 4u, 9u}) {
      const auto factor = sample(scenarios, noon(day), &Shift::rain_factor);
      // A lognormal of spread 0.8 has a standard deviation of 0.95: over 8192 draws the mean is known to 0.0105.
      CHECK(mean(factor) == within(1.0, 0.045));
      std::vector<double> logs(factor);
      for (double& x : logs) x = std::log(x);
      CHECK(sd(logs) == within(error().rain_ln_sd, 0.03 * error().rain_ln_sd));
    }
  }
}
